"""Reading project files: bytes from the disk to a project, problems to the terminal."""

import os
import sys
from pathlib import Path, PureWindowsPath

from stitchpath.errors import Problem, ProjectError, StitchpathError
from stitchpath.model.drawing import Drawing
from stitchpath.model.project import Project
from stitchpath.project import (
    MOST_DRAWING_BYTES,
    Load,
    decode_project,
    read_drawing,
    read_project,
    render_problems,
)

MOST_BYTES = 1_000_001
"""One byte more than a project file may have; no more is read."""


class ShownProblemsError(StitchpathError):
    """A project's problems, already worded for the terminal."""

    def __init__(self, text: str, problems: tuple[Problem, ...]) -> None:
        """Keep the text and the problems."""
        super().__init__(text)
        self.problems = problems


def load_project(path: Path) -> Project:
    """Return the project in a file.

    Raises:
        ShownProblemsError: The file has problems; its text shows them with their places.
        StitchpathError: The file cannot be read.
    """
    data = read_bytes(path, most=MOST_BYTES)
    text = data.decode("utf-8", errors="replace")
    try:
        return read_project(decode_project(data), load=drawing_loader(path.parent))
    except ProjectError as error:
        shown = render_problems(
            error.problems, text=text, name=str(path), colour=wants_colour()
        )
        raise ShownProblemsError(shown, error.problems) from error


def drawing_loader(folder: Path) -> Load:
    """Return what reads the drawings of a project: SVG files in its folder, or below it.

    It raises a ValueError that says why a name cannot be read: a path from the root, `..`, a
    link that leads out of the folder, no file, no drawing.
    """
    home = folder.resolve()

    def load(name: str) -> Drawing:
        given = PureWindowsPath(name)  # knows both kinds of slashes, and drives
        if given.anchor or ".." in given.parts:
            raise ValueError(
                "a drawing is named from the project's folder, without `/` or `..`"
            )
        if given.suffix.lower() != ".svg":
            raise ValueError("a drawing's name ends in `.svg`")
        return read_drawing(_bytes_below(home, name), name)

    return load


def _bytes_below(home: Path, name: str) -> bytes:
    try:
        path = (home / name).resolve(strict=True)
        if not path.is_relative_to(home):
            raise ValueError("the name leads out of the project's folder")
        if not path.is_file():
            raise ValueError("this is no file")
        with path.open("rb") as stream:
            return stream.read(MOST_DRAWING_BYTES + 1)
    except (FileNotFoundError, NotADirectoryError):
        raise ValueError("there is no such file in the project's folder") from None
    except (OSError, RuntimeError) as fault:  # RuntimeError: links that lead to each other
        reason = getattr(fault, "strerror", None) or "its links lead nowhere"
        raise ValueError(f"the file cannot be read: {reason}") from None


def read_bytes(path: Path, *, most: int) -> bytes:
    """Return a file's first bytes.

    Raises:
        StitchpathError: There is no such file, or it cannot be read.
    """
    try:
        with path.open("rb") as stream:
            return stream.read(most)
    except FileNotFoundError:
        message = f"there is no file `{path}`\nhelp: check the name and the folder"
        raise StitchpathError(message) from None
    except IsADirectoryError:
        raise StitchpathError(f"`{path}` is a folder\nhelp: name a file in it") from None
    except OSError as fault:
        message = f"`{path}` cannot be read: {fault.strerror}"
        raise StitchpathError(message) from fault


def wants_colour() -> bool:
    """Whether messages may be coloured: on a terminal, and NO_COLOR is not set."""
    return sys.stderr.isatty() and not os.environ.get("NO_COLOR")
