"""Makes one folder hold now one set of files, now another, until it is killed.

Run as a program: the folder is its argument. It says `ready` when it begins.
"""

import sys
from pathlib import Path

from stitchpath.cli.folder import write_folder
from tests.support.output_folders import with_plan

STATES = tuple(
    with_plan({f"quilt/{n:02}.dst": bytes([state, n]) * 5000 for n in range(6 + state)})
    for state in (0, 1)
)
"""Two sets of files that a mixture of would show."""


def main() -> None:
    """Write one state after the other for ever."""
    out = Path(sys.argv[1])
    print("ready", flush=True)  # noqa: T201 - to whoever kills this process
    while True:
        for state in STATES:
            write_folder(out, state)


if __name__ == "__main__":
    main()
