"""Runs a command and turns what it raises into a message and an exit code."""

import signal
import sys
import traceback
from types import FrameType

from stitchpath.cli.app import app
from stitchpath.cli.usage import UsageError
from stitchpath.errors import EXIT_BUG, EXIT_DONE, EXIT_PROBLEMS, EXIT_USAGE, StitchpathError

EXIT_STOPPED = 130
"""What a shell shows for a command stopped with Ctrl-C."""


class _Stopped(BaseException):
    """Ctrl-C, as something that no handler of KeyboardInterrupt answers in other words."""


def main() -> None:
    """Run the command line and exit: see `errors` for the exit codes."""
    signal.signal(signal.SIGINT, _stop)
    sys.exit(_run())


def _stop(_signal: int, _frame: FrameType | None) -> None:
    raise _Stopped


def _run() -> int:
    try:
        app()
    except SystemExit as leave:
        return leave.code if isinstance(leave.code, int) else EXIT_DONE
    except BrokenPipeError:
        sys.stderr.close()  # whoever read the output has gone
        return EXIT_PROBLEMS
    except (Exception, _Stopped) as raised:  # noqa: BLE001 - nothing catches it later
        return _explain(raised)
    return EXIT_DONE


def _explain(raised: BaseException) -> int:
    """Say on stderr what happened; return the exit code."""
    match raised:
        case StitchpathError():
            text = str(raised)
            print(text if text.startswith("error") else f"error: {text}", file=sys.stderr)
            return EXIT_USAGE if isinstance(raised, UsageError) else EXIT_PROBLEMS
        case _Stopped():
            print("stopped; nothing was changed", file=sys.stderr)
            return EXIT_STOPPED
        case _:
            traceback.print_exception(raised)
            print("this is a bug in stitchpath; nothing was changed", file=sys.stderr)
            return EXIT_BUG
