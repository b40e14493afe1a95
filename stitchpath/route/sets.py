"""Sets: lines that run the same way, and where each lies in the order from the middle out."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, path_length
from stitchpath.geometry.tolerance import MEETING_MM
from stitchpath.model.line import Line

WILD = -1
"""The set of lines that run every way."""
_STRAIGHTNESS = 0.6
"""A line whose ends are further apart than this share of its length runs in a direction."""
_SAME_WAY_DEG = 5.0
"""Lines whose directions differ by less run the same way."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sets:
    """Which set each line belongs to, and its place there; each of shape (lines,).

    Attributes:
        number: The set, in the order of the sets' first lines; `WILD` for none.
        way_deg: The set's direction.
        side: 1 where the line lies on one side of the middle, -1 on the other, 0 on it.
        level: Its place from the middle out: 0 for the nearest on its side or on the middle,
            then 1, ...
        advance: How far along the set's direction its middle lies, mm.
    """

    number: NDArray[np.intp]
    way_deg: NDArray[np.float64]
    side: NDArray[np.intp]
    level: NDArray[np.intp]
    advance: NDArray[np.float64]


def find_sets(lines: tuple[Line, ...], middle: tuple[float, float]) -> Sets:
    """Return the sets of some lines, seen from the middle of the piece."""
    ways = [_way_deg(line.points) for line in lines]
    number = np.full(len(lines), WILD)
    known: list[float] = []
    for index, way in enumerate(ways):
        if way is not None:
            number[index] = _set_of(way, known)
    way_deg = np.array([known[each] if each != WILD else 0.0 for each in number])
    along = np.column_stack([np.cos(np.radians(way_deg)), np.sin(np.radians(way_deg))])
    across = np.column_stack([-along[:, 1], along[:, 0]])
    place = np.array([line.points[[0, -1]].mean(axis=0) for line in lines]) - middle
    offset = np.round((place * across).sum(axis=1) / MEETING_MM).astype(np.int64)
    side = np.sign(offset)
    level = np.zeros(len(lines), dtype=np.intp)
    for group in np.unique(number):
        for each in (1, -1):
            members = np.flatnonzero((number == group) & (side != -each))
            level[members] = np.unique(np.abs(offset[members]), return_inverse=True)[1]
    return Sets(
        number=number,
        way_deg=way_deg,
        side=side,
        level=level,
        advance=np.asarray((place * along).sum(axis=1)),
    )


def _way_deg(points: Points) -> float | None:
    """Return the direction a line runs in, 0 to 180; None where it runs every way."""
    chord = points[-1] - points[0]
    if np.hypot(*chord) < _STRAIGHTNESS * path_length(points):
        return None
    return float(np.degrees(np.arctan2(chord[1], chord[0])) % 180)


def _set_of(way: float, known: list[float]) -> int:
    """Return the number of the set that runs a way, a new one if none does."""
    for number, each in enumerate(known):
        if min(abs(way - each), 180 - abs(way - each)) < _SAME_WAY_DEG:
            return number
    known.append(way)
    return len(known) - 1
