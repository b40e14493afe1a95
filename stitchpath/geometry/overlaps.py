"""Where segments lie on one another: how often one place is gone over.

Method: segments of one infinite line have its angle and its distance from the origin in common,
to within rounding. Along each such line the segments' ends are swept in order, and what is open
at a time is counted.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import GRID_MM, MEETING_MM

_ANGLES: Final = 36_000
"""Directions told apart within half a turn; the usual angles lie in the middle of theirs."""
_SHIFT: Final = 0.371
"""Of the classes of distance, so that round distances do not lie between two of them."""
_ROW: Final = 1 << 32


@dataclass(frozen=True, slots=True, kw_only=True)
class Overlap:
    """A stretch that several segments go over.

    Attributes:
        middle: Its middle, x and y in mm.
        length: Its length, mm.
        depth: How many segments go over it.
    """

    middle: tuple[float, float]
    length: float
    depth: int


def find_overlaps(segments: NDArray[np.float64], *, most: int) -> list[Overlap]:
    """Return the stretches that more than `most` segments go over, deepest and longest first.

    Args:
        segments: Both ends of each, shape (n, 2, 2), mm; one without length counts for nothing.
        most: So many may lie on one another.

    Cost: O(n log n). Not promised: segments that run beside each other, a tenth of a mm apart,
    count as apart or not as it happens; segments that cross do not count.

    Example:
        >>> one = [[0.0, 0.0], [4.0, 0.0]]
        >>> back = [[3.0, 0.0], [1.0, 0.0]]
        >>> find_overlaps(np.array([one, back]), most=1)
        [Overlap(middle=(2.0, 0.0), length=2.0, depth=2)]
    """
    across = segments[:, 1] - segments[:, 0]
    segments = segments[np.hypot(across[:, 0], across[:, 1]) > MEETING_MM]
    line, along, axis = _lines(segments)
    events = np.concatenate([line, line])
    places = np.concatenate([along.min(axis=1), along.max(axis=1)])
    change = np.repeat([1, -1], len(line))
    order = np.lexsort((change, places, events))  # an end before a start at the same place
    depth = np.cumsum(change[order])[:-1]
    length = np.diff(places[order])
    deep = np.flatnonzero((depth > most) & (length > MEETING_MM))
    owner = order[deep] % len(line) if len(line) else deep
    middles = _middles(segments, along, axis, owner, places[order][deep] + length[deep] / 2)
    found = [
        Overlap(middle=(x, y), length=extent, depth=count)
        for (x, y), extent, count in zip(
            middles.tolist(), length[deep].tolist(), depth[deep].tolist(), strict=True
        )
    ]
    return sorted(found, key=lambda one: (-one.depth, -one.length, one.middle))


def _lines(
    segments: NDArray[np.float64],
) -> tuple[NDArray[np.int64], NDArray[np.float64], Points]:
    """Return each segment's line as a number, its ends along that line, its direction."""
    across = segments[:, 1] - segments[:, 0]
    angle = np.arctan2(across[:, 1], across[:, 0]) % np.pi
    number = np.rint(angle / np.pi * _ANGLES)
    angle = np.where(number == _ANGLES, angle - np.pi, angle)
    axis = np.column_stack([np.cos(angle), np.sin(angle)])
    off = axis[:, 0] * segments[:, 0, 1] - axis[:, 1] * segments[:, 0, 0]
    row = np.floor(off / GRID_MM + _SHIFT).astype(np.int64)
    along = segments[..., 0] * axis[:, :1] + segments[..., 1] * axis[:, 1:]
    return row * _ROW + (number % _ANGLES).astype(np.int64), along, axis


def _middles(
    segments: NDArray[np.float64],
    along: NDArray[np.float64],
    axis: Points,
    owner: NDArray[np.intp],
    at: NDArray[np.float64],
) -> Points:
    """Return the points that lie at given places along their owners' lines."""
    ahead = (at - along[owner, 0])[:, None]
    return np.asarray(segments[owner, 0] + ahead * axis[owner])
