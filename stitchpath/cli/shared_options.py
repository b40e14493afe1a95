"""What options can be, and options that several commands have, declared once."""

import functools
import inspect
from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from itertools import chain
from pathlib import Path
from typing import Annotated, Any, Final

import typer


class Unit(StrEnum):
    """Units a starter project can be written in."""

    MM = "mm"
    CM = "cm"
    INCH = "in"


class Hand(StrEnum):
    """Which end of the pocket's mouth, as it lies under the needle."""

    LEFT = "left"
    RIGHT = "right"


class StageName(StrEnum):
    """The stages there can be, in the order of sewing."""

    POCKET = "pocket"
    QUILT = "quilt"
    SEAM = "seam"


class What(StrEnum):
    """What can be listed."""

    LAYOUTS = "layouts"
    FIELDS = "fields"
    BATTINGS = "battings"
    FORMATS = "formats"
    BOBBINS = "bobbins"
    PAPERS = "papers"
    THREADS = "threads"


ProjectFile = Annotated[
    Path, typer.Argument(metavar="PROJECT", help="a project file (TOML)", readable=False)
]
"""Whether it can be read is seen, and worded, when it is read."""
AsJson = Annotated[bool, typer.Option("--json", help="print data instead of text")]
Replace = Annotated[bool, typer.Option("--replace", help="write over an existing file")]


@dataclass(frozen=True, slots=True, kw_only=True)
class CountOptions:
    """What a stitch file does not say, as typed."""

    speed: Annotated[
        str, typer.Option(metavar="N", help="for stitch files: stitches a minute, 50 to 3000")
    ] = "600"
    thickness: Annotated[
        str,
        typer.Option(
            metavar="LENGTH", help="for stitch files: of the sandwich under the stitch"
        ),
    ] = "3 mm"
    bobbin: Annotated[
        str, typer.Option(metavar="NAME", help="for stitch files: see `list bobbins`")
    ] = "L"


_PARAMETERS: Final = inspect.signature(CountOptions).parameters


def with_count_options(command: Callable[..., int]) -> Callable[..., int]:
    """Return a command that has these options where the one given has `count`."""
    own = inspect.signature(command)
    parameters = list(
        chain.from_iterable(
            _PARAMETERS.values() if name == "count" else [parameter]
            for name, parameter in own.parameters.items()
        )
    )

    @functools.wraps(command)
    def called(**given: Any) -> int:  # noqa: ANN401 - whatever the command's parameters are
        count = CountOptions(**{name: given.pop(name) for name in _PARAMETERS})
        return command(count=count, **given)

    kinds = [one.replace(kind=inspect.Parameter.KEYWORD_ONLY) for one in parameters]
    called.__signature__ = own.replace(parameters=kinds)  # type: ignore[attr-defined]
    called.__annotations__ = {one.name: one.annotation for one in kinds}
    return called
