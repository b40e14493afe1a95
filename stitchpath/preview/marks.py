"""Shapes of the marks, stamped at many places at once."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from stitchpath.geometry.points import Points
from stitchpath.preview.polylines import Polylines

ARROW: Final = np.array([[-0.45, -0.38], [0.55, 0.0], [-0.45, 0.38], [-0.22, 0.0]])
"""A head that points along x."""
SQUARE: Final = np.array([[-0.5, -0.5], [0.5, -0.5], [0.5, 0.5], [-0.5, 0.5]])
SLASH: Final = np.array([[-0.55, 0.55], [0.55, -0.55]])
UPRIGHT: Final = np.array([[0.0, -0.5], [0.0, 0.5]])
LEVEL: Final = np.array([[-0.5, 0.0], [0.5, 0.0]])
POINTER: Final = np.array([[-0.5, 0.45], [0.0, -0.45], [0.5, 0.45]])
"""A head that points up."""


def stamped(
    shape: Points, places: ArrayLike, size: float, *, along: ArrayLike | None = None
) -> Polylines:
    """Return a shape drawn at each of many places.

    Args:
        shape: Vertices of a mark of size 1, shape (k, 2), its middle at 0, 0.
        places: Where its middle comes, shape (n, 2), mm.
        size: How large, mm.
        along: Unit vectors, shape (n, 2), that the shape's x axis turns to; none: as it is.
    """
    middle = np.asarray(places, dtype=np.float64).reshape(-1, 2)
    axis = np.broadcast_to([1.0, 0.0] if along is None else along, middle.shape)
    across = axis @ np.array([[0.0, 1.0], [-1.0, 0.0]])
    turned = shape[None, :, :1] * axis[:, None] + shape[None, :, 1:] * across[:, None]
    points = middle[:, None] + turned * size
    starts = np.arange(len(middle)) * len(shape)
    return Polylines(points=points.reshape(-1, 2), starts=starts)


def box(x0: float, y0: float, x1: float, y1: float) -> Polylines:
    """Return a rectangle, to be closed."""
    return Polylines.of([np.array([[x0, y0], [x1, y0], [x1, y1], [x0, y1]])])


def along_lines(lines: Polylines, *, every_mm: float, least_mm: float) -> tuple[Points, Points]:
    """Return places along lines and the unit vectors of the direction there.

    Args:
        lines: Without neighbours that coincide.
        every_mm: One place for each such stretch, and at least one on a line.
        least_mm: Shorter lines get none.
    """
    found = [_along(line, every_mm) for line in lines if _length(line) >= least_mm]
    both = np.concatenate(found) if found else np.empty((0, 2, 2))
    return both[:, 0], both[:, 1]


def _along(line: Points, every_mm: float) -> Points:
    """Return (k, 2, 2): places and directions."""
    steps = np.diff(line, axis=0)
    lengths = np.hypot(*steps.T)
    reached = np.cumsum(lengths)
    count = max(1, int(reached[-1] // every_mm))
    # not in the middle: there other lines cross
    at = (np.arange(count) + 0.38) / count * reached[-1]
    row = np.searchsorted(reached, at)
    left = (reached[row] - at)[:, None] / lengths[row, None]
    return np.stack([line[row + 1] - steps[row] * left, steps[row] / lengths[row, None]], 1)


def _length(line: Points) -> float:
    return float(np.hypot(*np.diff(line, axis=0).T).sum())
