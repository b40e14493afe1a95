"""Reading project files: bytes from the disk to a project, problems to the terminal."""

import os
import sys
from collections.abc import Callable, Sequence
from contextlib import ExitStack
from functools import cache
from pathlib import Path
from typing import TypeVar

from stitchpath.catalog.formats import FORMATS
from stitchpath.cli.drawings import drawing_loader
from stitchpath.cli.file_bytes import read_bytes
from stitchpath.cli.memory import give_back_large_memory
from stitchpath.cli.problems import ShownProblemsError
from stitchpath.cli.progress import SLOW_HOOPINGS, progress
from stitchpath.cli.side_by_side import side_by_side
from stitchpath.cli.terminal import plain
from stitchpath.errors import ProjectError, StitchpathError
from stitchpath.model.design import DesignFile
from stitchpath.model.plan import Plan
from stitchpath.model.project import Project
from stitchpath.project import Load, decode_project, read_project, render_problems

_Thing = TypeVar("_Thing")
_Made = TypeVar("_Made")

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
        with ExitStack() as opened:
            return read_project(
                decode_project(data),
                load=drawing_loader(path.parent),
                load_design=_designs(path.parent, opened),
            )
    except ProjectError as error:
        shown = render_problems(
            error.problems, text=text, name=plain(path), colour=wants_colour()
        )
        raise ShownProblemsError(shown, error.problems) from error


def _designs(folder: Path, opened: ExitStack) -> Load[DesignFile]:
    """Return what reads designs, by a reader that is opened for the first of them."""

    @cache
    def loader() -> Load[DesignFile]:
        from stitchpath.cli.designs import design_loader  # noqa: PLC0415 - seldom needed
        from stitchpath.cli.reading import stitch_reader  # noqa: PLC0415 - with the above

        return design_loader(folder, opened.enter_context(stitch_reader()))

    def load(name: str) -> DesignFile:
        return loader()(name)

    return load


def plan_project(path: Path, *, compares_fields: bool = False) -> Plan:
    """Return the plan of the project in a file.

    The stages are imported when the file has no problems: those are told at once.

    Args:
        path: Of the project file.
        compares_fields: Whether it tells what each of several fields would need by itself.

    Raises:
        ShownProblemsError: The file has problems; its text shows them with their places.
        StitchpathError: The file cannot be read.
    """
    project = load_project(path)
    give_back_large_memory()
    from stitchpath.pipeline import compare_fields, plan  # noqa: PLC0415 - see above

    planned = plan(project, each=_shown)
    return compare_fields(planned, each=_shown) if compares_fields else planned


def _shown(make: Callable[[_Thing], _Made], things: Sequence[_Thing]) -> list[_Made]:
    """Return what is made of each hooping, with a progress bar where they are many."""
    with progress("hoopings in order", len(things), from_=SLOW_HOOPINGS) as advance:
        return side_by_side(make, things, on_made=advance)


def format_of(path: Path) -> str | None:
    """Return the stitch format that a file has by its name, or None."""
    name = path.suffix.lower().removeprefix(".")
    return name if name in FORMATS else None


def wants_colour() -> bool:
    """Whether messages may be coloured: on a terminal that can, and NO_COLOR is not set.

    Of the terminals of Windows one is known to colour without being asked to; it names itself.
    """
    can = sys.platform != "win32" or "WT_SESSION" in os.environ
    return can and sys.stderr.isatty() and not os.environ.get("NO_COLOR")
