"""Reading project files: bytes from the disk to a project, problems to the terminal."""

import os
import sys
from pathlib import Path

from stitchpath.catalog.formats import FORMATS
from stitchpath.cli.designs import design_loader
from stitchpath.cli.drawings import drawing_loader
from stitchpath.cli.file_bytes import read_bytes
from stitchpath.cli.problems import ShownProblemsError
from stitchpath.cli.reading import stitch_reader
from stitchpath.cli.terminal import plain
from stitchpath.errors import ProjectError, StitchpathError
from stitchpath.model.project import Project
from stitchpath.project import decode_project, read_project, render_problems

MOST_BYTES = 1_000_001
"""One byte more than a project file may have; no more is read."""


def load_project(path: Path) -> Project:
    """Return the project in a file.

    Raises:
        ShownProblemsError: The file has problems; its text shows them with their places.
        StitchpathError: The file cannot be read.
    """
    data = read_bytes(path, most=MOST_BYTES)
    if format_of(path) is not None:
        message = f"`{path}` is a stitch file by its name, and a project is wanted"
        raise StitchpathError(f"{message}\nhelp: name a project file, such as `my-throw.toml`")
    text = data.decode("utf-8", errors="replace")
    try:
        with stitch_reader() as reader:
            return read_project(
                decode_project(data),
                load=drawing_loader(path.parent),
                load_design=design_loader(path.parent, reader),
            )
    except ProjectError as error:
        shown = render_problems(
            error.problems, text=text, name=plain(path), colour=wants_colour()
        )
        raise ShownProblemsError(shown, error.problems) from error


def format_of(path: Path) -> str | None:
    """Return the stitch format that a file has by its name, or None."""
    name = path.suffix.lower().removeprefix(".")
    return name if name in FORMATS else None


def wants_colour() -> bool:
    """Whether messages may be coloured: on a terminal, and NO_COLOR is not set."""
    return sys.stderr.isatty() and not os.environ.get("NO_COLOR")
