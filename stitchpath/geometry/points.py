"""Points: float64 arrays of shape (n, 2), in mm, x to the right and y down."""

from collections.abc import Iterator
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stitchpath.geometry.tolerance import STEPS_PER_MM

Points: TypeAlias = NDArray[np.float64]

_AT_A_TIME: Final = 1 << 16
"""Rows: a few columns of them stay near the processor, and take little memory beside a plan."""


def parts_of(count: int) -> Iterator[slice]:
    """Yield ranges that make up `count` rows, each short enough for columns beside it.

    What is worked out row by row takes no second copy of millions of points so, and less time.

    Example:
        >>> list(parts_of(3)), list(parts_of(0))
        ([slice(0, 3, None)], [])
    """
    for start in range(0, count, _AT_A_TIME):
        yield slice(start, min(start + _AT_A_TIME, count))


def frozen_points(points: ArrayLike) -> Points:
    """Return a read-only float64 copy of `points`, shape (n, 2).

    An array that is so already, and no view of another, is returned itself.

    Args:
        points: Anything numpy reads as n rows of x, y in mm; every number finite.

    Raises:
        ValueError: The shape is not (n, 2) or a number is not finite (a caller's bug).

    Example:
        >>> frozen_points([[0, 0], [3, 4]]).flags.writeable
        False
    """
    array = np.asarray(points, dtype=np.float64)
    if array.flags.writeable or array.base is not None:
        array = array.copy()
    if array.ndim != 2 or array.shape[1] != 2:  # noqa: PLR2004 - the shape of points
        raise ValueError(f"points have the shape (n, 2), not {array.shape}")
    if not np.isfinite(array).all():
        raise ValueError("points are finite numbers")
    array.setflags(write=False)
    return array


def extremes(points: Points) -> tuple[Points, Points]:
    """Return the least and the greatest x and y of points, each of shape (2,).

    Args:
        points: Shape (n, 2), of any kind of number; n >= 1.

    Cost: O(n); of thousands of points a fortieth of what numpy takes along the longer axis.

    Example:
        >>> low, high = extremes(np.array([[3.0, 0.0], [1.0, 4.0]]))
        >>> low.tolist(), high.tolist()
        ([1.0, 0.0], [3.0, 4.0])
    """
    x, y = points[:, 0], points[:, 1]
    return np.array([x.min(), y.min()]), np.array([x.max(), y.max()])


def segment_lengths(points: Points) -> NDArray[np.float64]:
    """Return the n - 1 distances between neighbouring points, in mm."""
    count = max(len(points) - 1, 0)
    if count <= _AT_A_TIME:
        return lengths_of(points[1:] - points[:-1])
    lengths = np.empty(count)
    for part in parts_of(count):
        lengths[part] = lengths_of(points[part.start + 1 : part.stop + 1] - points[part])
    return lengths


def lengths_of(steps: Points) -> NDArray[np.float64]:
    """Return how long each step is, shape (n, 2), in mm."""
    return np.hypot(steps[:, 0], steps[:, 1])


def turns_between(steps: Points) -> NDArray[np.float64]:
    """Return by how much each step turns from the one before, either way, in radians.

    Args:
        steps: From point to point, shape (n, 2), mm; one of no length points to the right.

    Returns:
        Shape (n - 1,), from 0 to pi; empty for a single step or none.

    Example:
        >>> np.degrees(turns_between(np.array([[1.0, 0.0], [0.0, 5.0], [-2.0, 2.0]]))).round()
        array([90., 45.])
    """
    if len(steps) == 1:
        return np.empty(0)
    heading = np.arctan2(steps[:, 1], steps[:, 0])
    return np.abs((np.diff(heading) + np.pi) % (2 * np.pi) - np.pi)


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
    steps = np.empty(points.shape, dtype=np.int64)
    for part in parts_of(len(points)):
        steps[part] = np.rint(points[part] * STEPS_PER_MM)
    return steps


def on_grid(points: Points) -> Points:
    """Return points where files have them, shape (n, 2), mm."""
    return in_steps(points) / STEPS_PER_MM
