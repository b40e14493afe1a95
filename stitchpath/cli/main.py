"""Runs a command and turns what it raises into a message and an exit code.

What is slow to import is imported inside, where Ctrl-C is answered already.
"""

import signal
import sys
from types import FrameType

from stitchpath.cli.problems import ShownProblemsError
from stitchpath.cli.terminal import ReaderGoneError, plain, prepare_streams, tell
from stitchpath.cli.usage import UsageError
from stitchpath.errors import EXIT_BUG, EXIT_PROBLEMS, EXIT_USAGE, StitchpathError

EXIT_STOPPED = 130
"""What a shell shows for a command stopped with Ctrl-C."""
EXIT_READER_GONE = 141
"""What a shell shows for a command whose output nobody reads to the end."""


class _Stopped(BaseException):
    """Ctrl-C, as something that no handler of KeyboardInterrupt answers in other words."""


def main() -> None:
    """Run the command line and exit: see `errors` for the exit codes."""
    signal.signal(signal.SIGINT, _stop)
    try:
        code = _run()
    except _Stopped:  # while a message was printed
        code = EXIT_STOPPED
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # all is done; leaving takes a moment
    sys.exit(code)


def _stop(_signal: int, _frame: FrameType | None) -> None:
    raise _Stopped


def _run() -> int:
    try:
        prepare_streams()
        from stitchpath.cli.app import run  # noqa: PLC0415 - see above

        return run(sys.argv[1:])
    except (Exception, _Stopped) as raised:  # noqa: BLE001 - nothing catches it later
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
        case _Stopped():
            tell("stopped; nothing is half written")
            return EXIT_STOPPED
        case _:
            import traceback  # noqa: PLC0415 - hardly ever needed

            tell("".join(traceback.format_exception(raised)).rstrip())
            tell("this is a bug in stitchpath; nothing is half written")
            return EXIT_BUG
