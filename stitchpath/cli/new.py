"""`new`: a commented starter project."""

import sys
from pathlib import Path

from stitchpath.cli.folder import write_file
from stitchpath.project import starter_project
from stitchpath.units import Unit


def write_starter(path: Path, units: Unit) -> None:
    """Write a starter project; an existing file is left alone.

    Raises:
        OutputError: The file exists or cannot be written.
    """
    write_file(path, starter_project(units).encode())
    print(f"wrote {path}", file=sys.stderr)
    print(f"next: `stitchpath check {path}`", file=sys.stderr)
