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


def cut_path(points: Points, start_mm: float, end_mm: float) -> Points:
    """Return the part of a polyline between two distances along it, with its vertices.

    Args:
        points: Vertices, shape (n, 2), mm.
        start_mm: Where the part begins; 0 for the line's own start.
        end_mm: Where it ends, > `start_mm`.

    Example:
        >>> corner = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0]])
        >>> cut_path(corner, 5, 15).tolist()
        [[5.0, 0.0], [10.0, 0.0], [10.0, 5.0]]
    """
    distances = distances_along(points)
    inside = (start_mm + SAME_POINT_MM < distances) & (distances < end_mm - SAME_POINT_MM)
    ends = points_at(points, np.array([start_mm, end_mm]))
    return np.concatenate([ends[:1], points[inside], ends[1:]])
