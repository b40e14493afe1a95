"""Shapes of the marks, stamped at many places at once."""

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from stitchpath.geometry.points import Points
from stitchpath.preview.polylines import Polylines

ARROW: Final = np.array([[-0.45, -0.38], [0.55, 0.0], [-0.45, 0.38], [-0.22, 0.0]])
"""A head that points along x."""
SQUARE: Final = np.array([[-0.5, -0.5], [0.5, -0.5], [0.5, 0.5], [-0.5, 0.5]])
DIAMOND: Final = np.array([[0.0, -0.5], [0.5, 0.0], [0.0, 0.5], [-0.5, 0.0]])
SLASH: Final = np.array([[-0.55, 0.55], [0.55, -0.55]])
UPRIGHT: Final = np.array([[0.0, -0.5], [0.0, 0.5]])
LEVEL: Final = np.array([[-0.5, 0.0], [0.5, 0.0]])
POINTER: Final = np.array([[-0.36, 0.5], [0.0, -0.6], [0.36, 0.5]])
"""A head that points up."""
TRIANGLE: Final = np.array([[-0.6, 0.35], [0.0, -0.7], [0.6, 0.35]])
"""Upright, its middle that of its corners, for a place that a check warns of."""


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
    middle, turned = np.asarray(places, dtype=np.float64).reshape(-1, 2), shape
    if along is not None:
        axis = np.broadcast_to(along, middle.shape)
        across = axis @ np.array([[0.0, 1.0], [-1.0, 0.0]])
        turned = shape[None, :, :1] * axis[:, None] + shape[None, :, 1:] * across[:, None]
    points = middle[:, None] + turned * size
    starts = np.arange(len(middle)) * len(shape)
    return Polylines(points=points.reshape(-1, 2), starts=starts)


def box(x0: float, y0: float, x1: float, y1: float) -> Polylines:
    """Return a rectangle, to be closed."""
    return boxes([(x0, y0, x1, y1)])


def boxes(corners: ArrayLike) -> Polylines:
    """Return rectangles, to be closed, each given as x0, y0, x1, y1."""
    each = np.asarray(corners, dtype=np.float64).reshape(-1, 4)
    around = each[:, [0, 1, 2, 1, 2, 3, 0, 3]].reshape(-1, 2)
    return Polylines(points=around, starts=np.arange(len(each)) * 4)
