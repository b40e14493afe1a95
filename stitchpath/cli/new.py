"""`new`: a commented starter project."""

from pathlib import Path

from stitchpath.cli.folder import write_file
from stitchpath.cli.terminal import plain, tell
from stitchpath.errors import EXIT_DONE
from stitchpath.project import starter_project
from stitchpath.units import Unit


def write_starter(path: Path, units: Unit) -> int:
    """Write a starter project; return the exit code.

    Raises:
        OutputError: The file exists or cannot be written.
    """
    write_file(path, starter_project(units).encode())
    tell(plain(f"wrote `{path}`\nnext: `stitchpath check {path}`"))
    return EXIT_DONE
