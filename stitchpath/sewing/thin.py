"""Needle points where a line bends more tightly than stitches can follow."""

from math import dist

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.geometry.tolerance import BLUNT_MM, GRID_MM, SAME_POINT_MM
from stitchpath.sewing.limits import StitchLimits


def far_enough(xy: Points, starts: NDArray[np.intp], limits: StitchLimits) -> NDArray[np.bool_]:
    """Return which needle points to keep where a crooked line puts some too near the last one.

    Only bends tighter than any stitch can follow do that; ends always stay.

    Args:
        xy: Needle points of several paths, one after another, shape (n, 2), mm.
        starts: Row at which each path begins, and at the end n, shape (paths + 1,).
        limits: The shortest and the longest stitch.
    """
    least = limits.shortest_mm - GRID_MM
    steps = segment_lengths(xy)
    steps[starts[1:-1] - 1] = np.inf
    crooked = np.unique(np.searchsorted(starts, np.flatnonzero(steps < least), "right"))
    keep = np.ones(len(xy), dtype=np.bool_)
    for path in crooked.tolist():
        first, last = int(starts[path - 1]), int(starts[path]) - 1
        points = xy[first : last + 1]
        keep[first : last + 1] = _far_enough(points, least, limits.longest_mm)
    return keep


def _far_enough(points: Points, least_mm: float, most_mm: float) -> NDArray[np.bool_]:
    """Return which points to keep so that neighbours are far enough apart, both ends always."""
    places = points.tolist()
    kept = [0]
    for index in range(1, len(places) - 1):
        last, here, after = places[kept[-1]], places[index], places[index + 1]
        if least_mm <= dist(last, here) or _is_needed(last, here, after, most_mm):
            kept.append(index)
    if len(kept) > 1 and dist(places[kept[-1]], places[-1]) < least_mm:
        before, last = places[kept[-2]], places[kept[-1]]
        if not _is_needed(before, last, places[-1], most_mm):
            kept.pop()
    keep = np.zeros(len(points), dtype=bool)
    keep[[*kept, -1]] = True
    return keep


def _is_needed(
    before: list[float], here: list[float], after: list[float], most_mm: float
) -> bool:
    """Return whether the stitch over a point would be too long, or cut a corner."""
    return most_mm < dist(before, after) or _off(before, here, after) >= BLUNT_MM


def _off(start: list[float], point: list[float], end: list[float]) -> float:
    """Return how far a point lies from the straight stitch between two others, mm.

    Where the line turns back at the point, that is its distance from the nearer of them.
    """
    (x0, y0), (x, y), (x1, y1) = start, point, end
    square = (x1 - x0) ** 2 + (y1 - y0) ** 2
    along = (x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)
    share = min(max(along / square, 0.0), 1.0) if square > SAME_POINT_MM**2 else 0.0
    return dist(point, [x0 + share * (x1 - x0), y0 + share * (y1 - y0)])
