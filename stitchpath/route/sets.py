"""Sets: lines that run the same way, and where each lies in the order from the middle out."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.paths import Paths
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
    paths = Paths.of([line.points for line in lines])
    known: list[float] = []
    number = np.array([_set_of(way, known) for way in _ways_deg(paths)])
    way_deg = np.append(known, 0.0)[number]  # the last one is for WILD
    along = np.column_stack([np.cos(np.radians(way_deg)), np.sin(np.radians(way_deg))])
    across = np.column_stack([-along[:, 1], along[:, 0]])
    place = paths.ends.mean(axis=1) - middle
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


def _ways_deg(paths: Paths) -> list[float | None]:
    """Return the direction each line runs in, 0 to 180; None where it runs every way."""
    chord_x, chord_y = (paths.ends[:, 1] - paths.ends[:, 0]).T
    runs = _STRAIGHTNESS * paths.lengths <= np.hypot(chord_x, chord_y)
    ways = np.degrees(np.arctan2(chord_y, chord_x)) % 180
    return [
        way if is_one else None
        for way, is_one in zip(ways.tolist(), runs.tolist(), strict=True)
    ]


def _set_of(way: float | None, known: list[float]) -> int:
    """Return the number of the set that runs a way, a new one if none does."""
    if way is None:
        return WILD
    for number, each in enumerate(known):
        if min(abs(way - each), 180 - abs(way - each)) < _SAME_WAY_DEG:
            return number
    known.append(way)
    return len(known) - 1
