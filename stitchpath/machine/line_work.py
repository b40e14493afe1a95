"""What a line file is written from: the lines of the runs, in the field's own frame."""

from dataclasses import dataclass
from itertools import chain
from typing import Final, TypeAlias

import numpy as np

from stitchpath.geometry.points import Points, path_length
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.hooping import Hooping
from stitchpath.model.line import Line
from stitchpath.model.machine import GcodeWords
from stitchpath.model.stitches import Run

DECIMALS: Final = 3
"""Of a mm in line files: a micron, far below any frame's step."""

Stretches: TypeAlias = tuple[Points, ...]
"""A run as polylines, shape (n, 2) each, mm from the field's centre, y down. Where one ends the
needle hops to the next with the thread uncut."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LineWork:
    """One hooping's lines.

    Attributes:
        name: The design's name, plain.
        colour: The top thread as `#rrggbb`.
        field: Width and height of the field, mm.
        runs: In the order of sewing, rounded to `DECIMALS`.
        marks: Name and place of each placement mark, mm from the field's centre, y down.
        gcode: Words for the needle, and the feed.
    """

    name: str
    colour: str
    field: tuple[float, float]
    runs: tuple[Stretches, ...]
    marks: tuple[tuple[str, tuple[float, float]], ...]
    gcode: GcodeWords


def stretches_of(run: Run, hooping: Hooping) -> Stretches:
    """Return a run as polylines in the field's frame, rounded, no point twice in a row."""
    parts: list[list[Points]] = []
    for points in chain.from_iterable(map(_sewn, run.lines)):
        if parts and np.hypot(*(points[0] - parts[-1][-1][-1])) <= SAME_POINT_MM:
            parts[-1].append(points[1:])
        else:
            parts.append([points])
    return tuple(_rounded(hooping.to_field(np.concatenate(part))) for part in parts)


def _sewn(line: Line) -> list[Points]:
    """Return a line, one of a stitch file without its moves; a single place is no line."""
    if line.file_run is None:
        return [line.points]
    parts = np.split(line.points, np.flatnonzero(line.file_run.moved))
    return [part for part in parts if path_length(part) > SAME_POINT_MM] or [line.points]


def _rounded(points: Points) -> Points:
    rounded = np.round(points, DECIMALS) + 0.0  # no -0.0
    moved = (np.diff(rounded, axis=0) != 0).any(axis=1)
    moved[-1:] |= not moved.any()  # a line shorter than the rounding keeps both its ends
    return np.asarray(rounded[np.concatenate([[True], moved])])
