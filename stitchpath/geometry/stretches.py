"""Stretches: the parts of paths between one node and the next."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.nodes import Visits, find_places
from stitchpath.geometry.paths import Paths, places_along, ranges
from stitchpath.geometry.points import Points, parts_of
from stitchpath.geometry.tolerance import SAME_POINT_MM

_APART_MM = 1.0  # between the distances along one path and those along the next


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stretches:
    """Parts of paths between nodes, in the order of the paths.

    Attributes:
        path: The path that each is a part of, shape (n,).
        nodes: Where each begins and ends, shape (n, 2).
        headings: The angle at which each leaves its first node, and at which it leaves its last
            node backwards, shape (n, 2), radians.
        xy: The vertices of all, one after another, shape (v, 2), mm; each begins and ends
            exactly on its nodes.
        starts: Where the vertices of each begin, and how many there are, shape (n + 1,).
        after: For each row of `Visits` the stretch from there to the path's next one, shape
            (rows,); meaningless for a path's last row.
    """

    path: NDArray[np.intp]
    nodes: NDArray[np.intp]
    headings: NDArray[np.float64]
    xy: Points
    starts: NDArray[np.intp]
    after: NDArray[np.intp]

    def shapes(self, which: NDArray[np.intp]) -> NDArray[np.object_]:
        """Return some stretches as line strings."""
        counts = self.starts[which + 1] - self.starts[which]
        return np.asarray(
            shapely.linestrings(
                self.xy[ranges(self.starts[which], counts)],
                indices=np.repeat(np.arange(len(which)), counts),
            )
        )

    def sums(self, terms: NDArray[np.float64]) -> NDArray[np.float64]:
        """Return the sum of something over each stretch's segments, shape (n,).

        Args:
            terms: One for each vertex in `xy` and the next, shape (v,); those that lead from
                one stretch to the next are left out.
        """
        own = terms.copy()
        own[self.starts[1:] - 1] = 0
        return np.asarray(np.add.reduceat(own, self.starts[:-1]))


def find_stretches(paths: Paths, visits: Visits) -> Stretches:
    """Return the stretches of some paths; what several paths share is the first one's."""
    lengths = paths.lengths + _APART_MM
    bases = np.cumsum(lengths) - lengths
    along, xy = paths.along + np.repeat(bases, np.diff(paths.starts)), paths.xy
    at = bases[visits.path] + visits.along
    head = np.flatnonzero(np.diff(visits.path) == 0)
    nodes = np.column_stack([visits.node[head], visits.node[head + 1]])
    middles = places_along(xy, along, (at[head] + at[head + 1]) / 2)
    first, after = _first_of_each(nodes, middles)
    own, after = head[first], _in_rows(head, after, len(at))
    nodes = nodes.take(first, axis=0)
    inner = np.searchsorted(along, at[own] + SAME_POINT_MM, side="right")
    beyond = np.searchsorted(along, at[own + 1] - SAME_POINT_MM, side="left")
    counts = np.maximum(beyond - inner, 0)
    starts = np.concatenate([[0], np.cumsum(counts + 2)])
    source = np.empty(starts[-1], dtype=np.intp)
    source[starts[:-1]], source[starts[1:] - 1] = nodes.T
    source[ranges(starts[:-1] + 1, counts)] = ranges(inner, counts) + len(visits.places)
    vertices = np.concatenate([visits.places, xy]).take(source, axis=0)
    return Stretches(
        path=visits.path[own],
        nodes=nodes,
        headings=np.column_stack(
            [_headings(xy, inner - 1, inner), _headings(xy, beyond, beyond - 1)]
        ),
        xy=vertices,
        starts=starts,
        after=after,
    )


def _in_rows(rows: NDArray[np.intp], values: NDArray[np.intp], count: int) -> NDArray[np.intp]:
    """Return values in their rows of so many, 0 in the others."""
    found = np.zeros(count, dtype=np.intp)
    found[rows] = values
    return found


def _headings(
    xy: Points, start: NDArray[np.intp], end: NDArray[np.intp]
) -> NDArray[np.float64]:
    """Return the angles from some vertices to others, radians."""
    angles = np.empty(len(start))
    for part in parts_of(len(start)):
        step = xy.take(end[part], axis=0) - xy.take(start[part], axis=0)
        angles[part] = np.arctan2(step[:, 1], step[:, 0])
    return angles


def _first_of_each(
    nodes: NDArray[np.intp], middles: Points
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Return which stretches no earlier one runs along, and for each which of them it is.

    Stretches with the same ends and the same middle run along one another.
    """
    low, high = np.minimum(*nodes.T), np.maximum(*nodes.T)
    ends = low * (high.max() + 1) + high
    order = np.argsort(ends, kind="stable")
    is_new = np.diff(ends[order], prepend=-1) != 0
    if is_new.all():  # then their middles need not be looked at
        return np.arange(len(ends)), np.arange(len(ends))
    place, _ = find_places(middles)
    order = np.lexsort((place, ends))
    is_new = (np.diff(ends[order], prepend=-1) != 0) | (np.diff(place[order], prepend=-1) != 0)
    heads = order[is_new]
    first = np.sort(heads)
    number = np.empty(len(order), dtype=np.intp)
    number[order] = np.searchsorted(first, heads)[np.cumsum(is_new) - 1]
    return first, number
