"""Points: float64 arrays of shape (n, 2), in mm, x to the right and y down."""

from typing import TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stitchpath.geometry.tolerance import STEPS_PER_MM

Points: TypeAlias = NDArray[np.float64]


def frozen_points(points: ArrayLike) -> Points:
    """Return a read-only float64 copy of `points`, shape (n, 2).

    Args:
        points: Anything numpy reads as n rows of x, y in mm; every number finite.

    Raises:
        ValueError: The shape is not (n, 2) or a number is not finite (a caller's bug).

    Example:
        >>> frozen_points([[0, 0], [3, 4]]).flags.writeable
        False
    """
    array = np.array(points, dtype=np.float64)
    if array.ndim != 2 or array.shape[1] != 2:  # noqa: PLR2004 - the shape of points
        raise ValueError(f"points have the shape (n, 2), not {array.shape}")
    if not np.isfinite(array).all():
        raise ValueError("points are finite numbers")
    array.setflags(write=False)
    return array


def segment_lengths(points: Points) -> NDArray[np.float64]:
    """Return the n - 1 distances between neighbouring points, in mm."""
    steps = points[1:] - points[:-1]
    return np.hypot(steps[:, 0], steps[:, 1])


def path_length(points: Points) -> float:
    """Return the length of a polyline in mm; 0 for a single point.

    Example:
        >>> path_length(np.array([[0.0, 0.0], [3.0, 4.0], [3.0, 5.0]]))
        6.0
    """
    return float(segment_lengths(points).sum())


def in_steps(points: Points) -> NDArray[np.int64]:
    """Return points in whole steps of the files' grid, as they are written, shape (n, 2).

    Positions are rounded, never steps between them, so nothing drifts.

    Example:
        >>> in_steps(np.array([[0.26, -1.0]])).tolist()
        [[3, -10]]
    """
    return np.rint(points * STEPS_PER_MM).astype(np.int64)


def on_grid(points: Points) -> Points:
    """Return points where files have them, shape (n, 2), mm."""
    return in_steps(points) / STEPS_PER_MM
