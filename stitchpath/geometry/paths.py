"""Polylines by arc length: distances along them, and parts cut out of them."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.geometry.tolerance import SAME_POINT_MM


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Paths:
    """Several polylines, one after another, to be worked on all at once.

    Attributes:
        xy: The vertices of all, shape (v, 2), mm.
        starts: Where the vertices of each begin, and how many there are, shape (n + 1,).
        along: Each vertex's distance from the start of its own path along it, shape (v,), mm.
    """

    xy: Points
    starts: NDArray[np.intp]
    along: NDArray[np.float64]

    @classmethod
    def of(cls, paths: Sequence[Points]) -> "Paths":
        """Return some polylines, each of shape (m, 2) with m >= 1; there is at least one."""
        xy = np.concatenate(paths)
        starts = np.cumsum([0, *map(len, paths)])
        along = np.concatenate([[0.0], segment_lengths(xy)])
        along[starts[:-1]] = 0.0
        is_long = np.diff(starts) > 2  # noqa: PLR2004 - of two vertices all is known by now
        for path in np.flatnonzero(is_long).tolist():
            own = along[starts[path] : starts[path + 1]]
            np.cumsum(own, out=own)
        return cls(xy=xy, starts=starts, along=along)

    @property
    def segments(self) -> NDArray[np.float64]:
        """Where each segment begins and ends, shape (segments, 2, 2)."""
        return np.stack([self.xy[self.heads], self.xy[self.heads + 1]], axis=1)

    def shapes(self) -> NDArray[np.object_]:
        """Return each as a line string."""
        owners = np.repeat(np.arange(len(self)), np.diff(self.starts))
        return np.asarray(shapely.linestrings(self.xy, indices=owners))

    def __len__(self) -> int:
        """Return how many there are."""
        return len(self.starts) - 1

    @property
    def lengths(self) -> NDArray[np.float64]:
        """The length of each, shape (n,), mm."""
        return np.asarray(self.along[self.starts[1:] - 1])

    @property
    def ends(self) -> NDArray[np.float64]:
        """Where each begins and ends, shape (n, 2, 2)."""
        return np.asarray(self.xy[np.column_stack([self.starts[:-1], self.starts[1:] - 1])])

    @property
    def heads(self) -> NDArray[np.intp]:
        """The vertices that segments begin with, shape (segments,): all but the last ones."""
        is_head = np.ones(len(self.xy), dtype=np.bool_)
        is_head[self.starts[1:] - 1] = False
        return np.flatnonzero(is_head)

    @property
    def owners(self) -> NDArray[np.intp]:
        """The path of each segment, shape (segments,)."""
        return np.repeat(np.arange(len(self)), np.diff(self.starts) - 1)


def ranges(starts: NDArray[np.intp], counts: NDArray[np.intp]) -> NDArray[np.intp]:
    """Return the whole numbers of several ranges, one range after another."""
    before = np.cumsum(counts) - counts
    return np.asarray(np.repeat(starts - before, counts) + np.arange(counts.sum()))


def distances_along(points: Points) -> NDArray[np.float64]:
    """Return each vertex's distance from the start along the line, shape (n,), mm."""
    along = np.zeros(len(points))
    segment_lengths(points).cumsum(out=along[1:])
    return along


def points_at(points: Points, along_mm: NDArray[np.float64]) -> Points:
    """Return the places at given distances along a polyline, shape (m, 2).

    Distances before the start or past the end give the start or the end.
    """
    return places_along(points, distances_along(points), along_mm)


def places_along(
    points: Points, distances: NDArray[np.float64], along_mm: NDArray[np.float64]
) -> Points:
    """Return the same as `points_at`, where the vertices' distances along are known."""
    places = np.empty((len(along_mm), 2))
    for axis in (0, 1):
        places[:, axis] = np.interp(along_mm, distances, points[:, axis])
    return places


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
    bounds = np.minimum(np.maximum(bounds_mm, 0.0), distances[-1])
    ends = places_along(points, distances, bounds.ravel()).reshape(-1, 2, 2)
    if len(points) == 2:  # noqa: PLR2004 - a straight line has no vertices between its ends
        return list(ends)
    first = np.searchsorted(distances, bounds[:, 0] + SAME_POINT_MM, side="right")
    last = np.searchsorted(distances, bounds[:, 1] - SAME_POINT_MM, side="left")
    return [
        np.concatenate([part[:1], points[start:stop], part[1:]])
        for part, start, stop in zip(ends, first.tolist(), last.tolist(), strict=True)
    ]
