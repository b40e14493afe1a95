"""Lets a process make one folder hold now one set of files, now another, and kills it.

Run as a program, with the folder and for each kill the seconds until then: prints as JSON, for
each, whether the folder is whole then. The folder holds the first set and a file of the maker's
own to begin with.
"""

import json
import os
import signal
import sys
import time
from pathlib import Path

from stitchpath.cli.folder import write_folder
from tests.support.output_folders import read_folder, with_plan

STATES = tuple(
    with_plan({f"quilt/{n:02}.dst": bytes([state, n]) * 5000 for n in range(6 + state)})
    for state in (0, 1)
)
"""Two sets of files that a mixture of would show."""
WHOLES = tuple({**state, "own.txt": b"own"} for state in STATES)


def is_whole_after(seconds: float, out: Path) -> bool:
    """Let a process write one state after the other for so long, and kill it."""
    child = os.fork()
    if not child:
        while True:
            for state in STATES:
                write_folder(out, state)
    time.sleep(seconds)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    return os.waitstatus_to_exitcode(status) == -signal.SIGKILL and read_folder(out) in WHOLES


def main() -> None:
    """Print what each kill left."""
    out = Path(sys.argv[1])
    print(json.dumps([is_whole_after(float(seconds), out) for seconds in sys.argv[2:]]))  # noqa: T201 - to the test


if __name__ == "__main__":
    main()
