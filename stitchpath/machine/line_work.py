"""What a line file is written from: the lines of the runs, in the field's own frame."""

from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.hooping import Hooping
from stitchpath.model.project import GcodeWords
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
    for line in run.lines:
        if parts and np.hypot(*(line.points[0] - parts[-1][-1][-1])) <= SAME_POINT_MM:
            parts[-1].append(line.points[1:])
        else:
            parts.append([line.points])
    return tuple(_rounded(hooping.to_field(np.concatenate(part))) for part in parts)


def _rounded(points: Points) -> Points:
    rounded = np.round(points, DECIMALS) + 0.0  # no -0.0
    moved = (np.diff(rounded, axis=0) != 0).any(axis=1)
    moved[-1:] |= not moved.any()  # a line shorter than the rounding keeps both its ends
    return np.asarray(rounded[np.concatenate([[True], moved])])
