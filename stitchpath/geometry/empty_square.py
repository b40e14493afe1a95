"""The largest empty square round a place, turned as it fits best.

Method: turned by a degree at a time, the square's half side is the least distance of any line
in the maximum norm. Along a segment that norm is convex, so it is least at an end or where one
of its parts changes over.
"""

from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points

_TURNS_DEG: Final = np.arange(90)


def empty_square_side(lines: list[Points], centre: tuple[float, float]) -> float:
    """Return the side of the largest square centred on a place with no line inside, mm.

    A square reaches less far than the circle that fits round the same place in its corners, and
    further than one inside it: its side is between the circle's radius times the root of two
    and its diameter.

    Args:
        lines: Polylines, shape (n, 2), mm; at least one.
        centre: x and y, mm.

    Cost: O(n). Not promised: the turn is right to a degree, so the side is up to 2 % short.

    Example:
        >>> walls = [np.array([[x, -50.0], [x, 50.0]]) for x in (-3.0, 3.0)]
        >>> empty_square_side(walls, (0.0, 0.0))
        6.0
    """
    ends = np.concatenate([np.stack([line[:-1], line[1:]], axis=1) for line in lines]) - centre
    near = ends[_distances(ends) <= np.sqrt(2) * _distances(ends).min()]
    return float(2 * max(_reach(near, turn) for turn in np.radians(_TURNS_DEG)))


def _distances(ends: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return how far segments, shape (n, 2, 2), are from the origin."""
    along = ends[:, 1] - ends[:, 0]
    square = np.maximum((along**2).sum(axis=1), np.finfo(float).tiny)
    share = np.clip(-(ends[:, 0] * along).sum(axis=1) / square, 0.0, 1.0)
    nearest = ends[:, 0] + share[:, None] * along
    return np.asarray(np.hypot(nearest[:, 0], nearest[:, 1]))


def _reach(ends: NDArray[np.float64], turn: float) -> float:
    """Return half the side of the square that is turned by so much."""
    c, s = np.cos(turn), np.sin(turn)
    x, y = c * ends[..., 0] + s * ends[..., 1], c * ends[..., 1] - s * ends[..., 0]
    zeros = [x, y, x - y, x + y]  # parts of the norm change over where one of these is zero
    shares = [np.zeros(len(x)), np.ones(len(x)), *map(_zero, zeros)]
    norms = [np.maximum(np.abs(_along(x, share)), np.abs(_along(y, share))) for share in shares]
    return float(np.min(norms))


def _along(ends: NDArray[np.float64], share: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.asarray(ends[:, 0] + share * (ends[:, 1] - ends[:, 0]))


def _zero(ends: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return where values that go evenly from end to end are zero, as a share within 0..1."""
    fall = ends[:, 0] - ends[:, 1]
    share = np.divide(ends[:, 0], fall, out=np.zeros(len(ends)), where=fall != 0)
    return np.asarray(np.clip(share, 0.0, 1.0))
