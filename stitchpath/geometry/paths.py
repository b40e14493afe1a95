"""Polylines by arc length: distances along them, and parts cut out of them."""

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.geometry.tolerance import SAME_POINT_MM


def distances_along(points: Points) -> NDArray[np.float64]:
    """Return each vertex's distance from the start along the line, shape (n,), mm."""
    return np.concatenate([[0.0], np.cumsum(segment_lengths(points))])


def points_at(points: Points, along_mm: NDArray[np.float64]) -> Points:
    """Return the places at given distances along a polyline, shape (m, 2).

    Distances before the start or past the end give the start or the end.
    """
    distances = distances_along(points)
    return np.column_stack([np.interp(along_mm, distances, points[:, axis]) for axis in (0, 1)])


def cut_path(points: Points, bounds_mm: NDArray[np.float64]) -> list[Points]:
    """Return parts of a polyline, each between two distances along it, with its vertices.

    Args:
        points: Vertices, shape (n, 2), mm.
        bounds_mm: Where each part begins and ends, shape (m, 2); what lies before the start or
            past the end of the line is left off.

    Example:
        >>> corner = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0]])
        >>> [part.tolist() for part in cut_path(corner, np.array([[5, 15]]))]
        [[[5.0, 0.0], [10.0, 0.0], [10.0, 5.0]]]
    """
    distances = distances_along(points)
    bounds = np.clip(bounds_mm, 0.0, distances[-1])
    ends = points_at(points, bounds.ravel()).reshape(-1, 2, 2)
    if len(points) == 2:  # noqa: PLR2004 - a straight line has no vertices between its ends
        return list(ends)
    first = np.searchsorted(distances, bounds[:, 0] + SAME_POINT_MM, side="right")
    last = np.searchsorted(distances, bounds[:, 1] - SAME_POINT_MM, side="left")
    return [
        np.concatenate([part[:1], points[start:stop], part[1:]])
        for part, start, stop in zip(ends, first.tolist(), last.tolist(), strict=True)
    ]
