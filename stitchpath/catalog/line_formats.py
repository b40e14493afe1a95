"""Formats for frames and plotters that follow lines, and tables of needle points as text."""

from dataclasses import dataclass
from typing import Final, Literal


@dataclass(frozen=True, slots=True, kw_only=True)
class LineFormat:
    """One format.

    Attributes:
        name: The file extension without its dot.
        holds: What is in it: the lines of the runs, or needle points with commands.
        summary: One line for a list.
    """

    name: str
    holds: Literal["lines", "needle points"]
    summary: str


_ALL: Final = (
    LineFormat(name="svg", holds="lines", summary="a path for each run, in mm"),
    LineFormat(
        name="dxf", holds="lines", summary="R2010, in mm, a polyline for each run, in layers"
    ),
    LineFormat(
        name="gcode", holds="lines", summary="for frames and plotters; see `[machine.gcode]`"
    ),
    LineFormat(
        name="csv",
        holds="needle points",
        summary="a table of needle points and commands, in mm",
    ),
    LineFormat(
        name="json", holds="needle points", summary="needle points and commands as data, in mm"
    ),
)

LINE_FORMATS: Final[dict[str, LineFormat]] = {format_.name: format_ for format_ in _ALL}
"""By name."""
