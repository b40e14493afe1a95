"""Kills a run that writes a folder right before one of its calls to the system.

Run as a program, with a folder and `at once` or `in two steps`: prints a row for each call that
the run was killed at, as JSON. Further runs, each killed at a call of its own, may follow.
"""

import json
import os
import random
import signal
import sys
from contextlib import ExitStack
from itertools import count
from pathlib import Path
from typing import Any
from unittest.mock import patch

from stitchpath.cli import staging
from stitchpath.cli.folder import write_folder
from tests.support.output_folders import (
    FIRST,
    SECOND,
    cannot_exchange,
    hidden_places,
    made_files,
    read_folder,
)

_CALLS = ("open", "os.", "shutil.", "fcntl.", "tempfile.", "ctypes.")
"""Events that the interpreter tells before it asks the system for something."""
_WHOLE = {"old": {**FIRST, "own": b"own"}, "new": {**SECOND, "own": b"own"}}
_THIRD = made_files(booklet_html="third")


def killed_at_each_call(folder: Path) -> list[dict[str, Any]]:
    """Return what is left of a run killed at each of its calls."""
    rows: list[dict[str, Any]] = []
    for nth in count(1):
        out = _begun(folder / str(nth))
        if not _killed(out, SECOND, nth):
            return rows
        rows.append(_left(out))
    raise AssertionError("a run has an end")


def killed_twice(folder: Path, calls: int, pairs: int) -> list[dict[str, Any]]:
    """Return what is left of two runs, each killed at some call."""
    chance = random.Random(3)  # noqa: S311 - no secret
    rows = []
    for pair in range(pairs):
        out = _begun(folder / f"twice-{pair}")
        for state in (SECOND, FIRST):
            _killed(out, state, chance.randint(1, calls))
        rows.append(_left(out))
    return rows


def _begun(folder: Path) -> Path:
    out = folder / "out"
    write_folder(out, FIRST)
    (out / "own").write_text("own")
    return out


def _killed(out: Path, state: dict[str, bytes], nth: int) -> bool:
    """Let a run write the folder; return whether it had an nth call to be killed at."""
    child = os.fork()
    if child:
        return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == -signal.SIGKILL
    calls = 0

    def watch(event: str, _: object) -> None:
        nonlocal calls
        calls += event.startswith(_CALLS)
        if calls == nth:
            os.kill(os.getpid(), signal.SIGKILL)

    sys.addaudithook(watch)
    write_folder(out, state)
    os._exit(0)


def _left(out: Path) -> dict[str, Any]:
    """Return what is there, then what is there after one more run that is left in peace."""
    files = read_folder(out) if out.exists() else None
    names = [name for name, state in _WHOLE.items() if files == state]
    places = len(hidden_places(out.parent))
    write_folder(out, _THIRD)
    return {
        "whole": names[0] if names else "none" if files is None else "a mixture",
        "places": places,
        "settled": read_folder(out) == {**_THIRD, "own": b"own"},
        "places_after": len(hidden_places(out.parent)),
    }


def main() -> None:
    """Print a row for each kill."""
    folder, how, pairs = Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])
    with ExitStack() as until_the_end:
        # a killed process takes nothing with it that the system has: no need to wait for disks
        until_the_end.enter_context(patch.object(os, "fsync", lambda _: None))
        if how == "in two steps":
            until_the_end.enter_context(patch.object(staging, "exchange", cannot_exchange))
        rows = killed_at_each_call(folder)
        rows += killed_twice(folder, len(rows), pairs)
    print(json.dumps(rows))  # noqa: T201 - the rows


if __name__ == "__main__":
    main()
