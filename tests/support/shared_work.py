"""Shares work that takes for ever between two processes, until it is stopped.

Run as a program: each process leaves its number in the folder that is the argument.
"""

import os
import signal
import sys
import time
from functools import partial
from pathlib import Path

from stitchpath.cli.interrupts import stop_at_once
from stitchpath.cli.side_by_side import side_by_side


def stay(number: int, *, folder: Path) -> None:
    """Leave the process's number, and take a moment."""
    if number > 1:  # the first two are done before anybody shares in the work
        (folder / str(os.getpid())).touch()
        time.sleep(0.05)


def main() -> None:
    """Share in work as a command does."""
    signal.signal(signal.SIGINT, stop_at_once)
    side_by_side(partial(stay, folder=Path(sys.argv[1])), range(100_000), worth_seconds=0.0)


if __name__ == "__main__":
    main()
