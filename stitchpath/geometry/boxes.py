"""Boxes (x0, y0, x1, y1) and polylines: what of a line lies in which box."""

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.paths import distances_along, places_along
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import SAME_POINT_MM

Boxes: TypeAlias = NDArray[np.float64]
"""Shape (n, 4): left, top, right, bottom, mm."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BoxedStretches:
    """Stretches of lines that lie in boxes, one row each, by line and start.

    Attributes:
        line: Which line, shape (n,).
        box: In which box.
        start: How far along the line it begins, mm.
        end: How far along the line it ends, mm.
    """

    line: NDArray[np.intp]
    box: NDArray[np.intp]
    start: NDArray[np.float64]
    end: NDArray[np.float64]


def bounds_of(lines: list[Points]) -> Boxes:
    """Return the box of each polyline, shape (n, 4)."""
    if not lines:
        return np.empty((0, 4))
    xy, starts = np.concatenate(lines), np.cumsum([0, *map(len, lines)])[:-1]
    return np.column_stack([way.reduceat(xy, starts) for way in (np.minimum, np.maximum)])


def stretch_boxes(points: Points, bounds_mm: NDArray[np.float64]) -> Boxes:
    """Return the boxes of parts of a polyline, each between two distances along it.

    Args:
        points: Vertices, shape (n, 2), mm; n >= 2.
        bounds_mm: Where each part begins and ends, shape (m, 2); clipped to the line.

    Cost: O(n + m + vertices in the parts), in whole arrays.

    Example:
        >>> corner = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0]])
        >>> stretch_boxes(corner, np.array([[5, 15]])).tolist()
        [[5.0, 0.0, 10.0, 5.0]]
    """
    along = distances_along(points)
    bounds = np.minimum(np.maximum(bounds_mm, 0.0), along[-1])
    ends = places_along(points, along, bounds.ravel()).reshape(-1, 2, 2)
    low, high = np.minimum(ends[:, 0], ends[:, 1]), np.maximum(ends[:, 0], ends[:, 1])
    first = np.searchsorted(along, bounds[:, 0], side="right")
    last = np.searchsorted(along, bounds[:, 1], side="left")
    inner = np.flatnonzero(first < last)
    if len(inner):
        rows = np.column_stack([first[inner], last[inner]]).ravel()
        padded = np.concatenate([points, points[-1:]])
        least, most = (pick.reduceat(padded, rows)[::2] for pick in (np.minimum, np.maximum))
        low[inner] = np.minimum(low[inner], least)
        high[inner] = np.maximum(high[inner], most)
    return np.column_stack([low, high])


def stretches_in(lines: list[Points], boxes: Boxes) -> BoxedStretches:
    """Return every stretch of every line that lies in a box; borders belong to their box.

    Args:
        lines: Polylines, each of shape (n, 2), mm, n >= 2.
        boxes: Shape (m, 4); they may overlap.

    Cost: O(segments + pairs of a segment and a box it meets), in whole arrays.
    """
    along = [distances_along(line) for line in lines]
    owner = np.repeat(np.arange(len(lines)), [len(line) - 1 for line in lines])
    start = np.concatenate([line[:-1] for line in lines])
    step = np.concatenate([np.diff(line, axis=0) for line in lines])
    base = np.concatenate([each[:-1] for each in along])
    wide = boxes + np.array([-1, -1, 1, 1]) * SAME_POINT_MM
    ends = np.stack([start, start + step], axis=1)
    tree = shapely.STRtree(np.asarray(shapely.box(*wide.T)))
    segment, box = tree.query(shapely.box(*ends.min(axis=1).T, *ends.max(axis=1).T))
    enters, leaves = _shares(start[segment], step[segment], wide[box])
    meets = enters < leaves
    segment, box = segment[meets], box[meets]
    length = np.hypot(*step[segment].T)
    return _merged(
        BoxedStretches(
            line=owner[segment],
            box=box,
            start=base[segment] + enters[meets] * length,
            end=base[segment] + leaves[meets] * length,
        )
    )


def _shares(
    start: Points, step: Points, boxes: Boxes
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return where each segment enters and leaves its box, as shares of its length.

    Liang and Barsky's clipping: the latest entry and the earliest exit of both axes.
    """
    still = step == 0
    slope = np.where(still, 1.0, step)
    one, other = (boxes[:, :2] - start) / slope, (boxes[:, 2:] - start) / slope
    inside = (boxes[:, :2] <= start) & (start <= boxes[:, 2:])
    never = np.where(inside, -np.inf, np.inf)
    enters = np.where(still, never, np.minimum(one, other)).max(axis=1)
    leaves = np.where(still, -never, np.maximum(one, other)).min(axis=1)
    return np.maximum(enters, 0.0), np.minimum(leaves, 1.0)


def _merged(found: BoxedStretches) -> BoxedStretches:
    """Return stretches with those joined that go on over a vertex, by line and start."""
    order = np.lexsort((found.start, found.box, found.line))
    line, box = found.line[order], found.box[order]
    start, end = found.start[order], found.end[order]
    begins = (np.diff(line, prepend=-1) != 0) | (np.diff(box, prepend=-1) != 0)
    begins[1:] |= start[1:] > end[:-1] + SAME_POINT_MM
    first = np.flatnonzero(begins)
    last = np.append(first[1:], len(line)) - 1 if len(first) else first
    line, box, start, end = line[first], box[first], start[first], end[last]
    order = np.lexsort((box, start, line))
    return BoxedStretches(line=line[order], box=box[order], start=start[order], end=end[order])
