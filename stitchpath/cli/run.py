"""Runs a command and turns what it raises into a message and an exit code.

What is slow to import is imported inside, where Ctrl-C is answered already.
"""

import signal
import sys

from stitchpath.cli.interrupts import EXIT_STOPPED, STOPPED, Stopped, stop_at_once
from stitchpath.cli.problems import ShownProblemsError
from stitchpath.cli.terminal import ReaderGoneError, drop, plain, prepare_streams, tell
from stitchpath.cli.usage import UsageError
from stitchpath.errors import EXIT_BUG, EXIT_PROBLEMS, EXIT_USAGE, StitchpathError

EXIT_READER_GONE = 141
"""What a shell shows for a command whose output nobody reads to the end."""


def run_and_exit() -> None:
    """Run the command line and exit, whatever happens."""
    signal.signal(signal.SIGINT, stop_at_once)
    code = _run()
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # all is done; leaving takes a moment
    sys.exit(code)


def _run() -> int:
    try:
        prepare_streams()
        from stitchpath.cli.call import run  # noqa: PLC0415 - see above

        return run(sys.argv[1:])
    except (Exception, Stopped) as raised:  # noqa: BLE001 - nothing catches it later
        return _explain(raised)


def _explain(raised: BaseException) -> int:
    """Say on stderr what happened; return the exit code."""
    match raised:
        case StitchpathError():
            is_shown = isinstance(raised, ShownProblemsError)
            tell(str(raised) if is_shown else f"error: {plain(raised)}")
            return EXIT_USAGE if isinstance(raised, UsageError) else EXIT_PROBLEMS
        case ReaderGoneError():
            return EXIT_READER_GONE
        case OSError():  # the help, which the command library prints, could not be written
            drop(sys.stdout)
            tell(plain(f"error: the system refuses: {raised.strerror or raised}"))
            return EXIT_PROBLEMS
        case Stopped():
            tell(STOPPED)
            return EXIT_STOPPED
        case _:
            import traceback  # noqa: PLC0415 - hardly ever needed

            tell("".join(traceback.format_exception(raised)).rstrip())
            tell("this is a bug in stitchpath; nothing is half written")
            return EXIT_BUG
