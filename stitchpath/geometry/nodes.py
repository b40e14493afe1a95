"""Where paths end, meet and cross: nodes, and the stretches between them.

A *node* is a place where a path ends or meets a path, itself included; a *stretch* lies between
two nodes next to each other on a path.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.paths import Paths
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import MEETING_MM, PARALLEL

_SHIFT = 0.3819  # of a cell; no length in mm, cm or sixteenths of an inch ends so
_ROW = 2**32  # more cells than any piece has side by side


@dataclass(frozen=True, kw_only=True, eq=False)
class Visits:
    """The nodes on each path, one row for each, path by path and in order along it.

    Attributes:
        path: Which path, shape (n,).
        along: How far along it the node lies, shape (n,), mm.
        node: Which node, shape (n,).
        places: Where each node lies, shape (nodes, 2), mm.
    """

    path: NDArray[np.intp]
    along: NDArray[np.float64]
    node: NDArray[np.intp]
    places: Points

    @property
    def bounds(self) -> NDArray[np.intp]:
        """Where each path's rows begin, without the first path's."""
        return np.flatnonzero(np.diff(self.path)) + 1

    @cached_property
    def parts(self) -> NDArray[np.intp]:
        """For each path the number of the connected part that it belongs to."""
        order = np.argsort(self.node, kind="stable")
        path, node = self.path[order], self.node[order]
        meets = np.diff(node) == 0
        return connected_parts(int(self.path[-1]) + 1, path[:-1][meets], path[1:][meets])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Meetings:
    """Paths at places, one row each: which path, how far along it, and where that is."""

    path: NDArray[np.intp]
    along: NDArray[np.float64]
    place: Points


def find_nodes(paths: Paths) -> Visits:
    """Return the nodes of some paths; each has at least two vertices.

    Places nearer than `MEETING_MM` are one node. Where paths run along one another, the ends of
    the common part are nodes.

    Cost: O((segments + crossings) log), in whole arrays.
    """
    meetings, lengths = _meetings(paths), paths.lengths
    path = np.concatenate([np.repeat(np.arange(len(paths)), 2), meetings.path])
    ends = np.column_stack([np.zeros(len(paths)), lengths])
    along = np.concatenate([ends.ravel(), meetings.along])
    place = np.concatenate([paths.ends.reshape(-1, 2), meetings.place])
    node, places = find_places(place)
    order = np.lexsort((along, path))
    path, along, node = path[order], along[order], node[order]
    seen = (np.diff(path) == 0) & (np.diff(node) == 0) & (np.diff(along) < 2 * MEETING_MM)
    keep = np.concatenate([[True], ~seen])
    path, along, node = path[keep], along[keep], node[keep]
    last = np.append(np.flatnonzero(np.diff(path)), len(path) - 1)
    along[last] = lengths
    return Visits(path=path, along=along, node=node, places=places)


def find_places(blurred: Points) -> tuple[NDArray[np.intp], Points]:
    """Return a number for each place, and where each number lies; near places share one.

    Places are told apart by their cells, and cells next to each other are one where what lies
    in them is near.
    """
    cell = cells_of(blurred)
    key = cell[:, 0] * _ROW + cell[:, 1]
    keys, head, node = np.unique(key, return_index=True, return_inverse=True)
    one, other = _neighbours(keys, blurred[head])
    if len(one):
        parts = connected_parts(len(keys), one, other)
        _, first, merged = np.unique(parts, return_index=True, return_inverse=True)
        node, head = merged[node], head[first]
    return node, blurred[head]


def cells_of(place: Points) -> NDArray[np.int64]:
    """Return the cell of a fine grid that each place lies in, shape (n, 2).

    The grid is shifted, so that designed lengths and their halves lie off its borders.
    """
    return np.asarray(np.floor(place / MEETING_MM + _SHIFT).astype(np.int64))


def connected_parts(
    count: int, starts: NDArray[np.intp], ends: NDArray[np.intp]
) -> NDArray[np.intp]:
    """Return for each of `count` nodes the number of its connected part, shape (count,).

    Parts are numbered in the order of their first nodes.

    Method: a part bears the lowest of its nodes' numbers; parts that an edge joins take the
    lower of theirs, so that each time at least half of those that can be joined are.

    Cost: O((nodes + edges) log nodes), in whole arrays.

    Example:
        >>> connected_parts(5, np.array([3, 4]), np.array([1, 3])).tolist()
        [0, 1, 2, 1, 1]
    """
    part = np.arange(count)
    while True:
        one, other = part[starts], part[ends]
        apart = one != other
        if not apart.any():
            return np.asarray(np.unique(part, return_inverse=True)[1])
        one, other = one[apart], other[apart]
        np.minimum.at(part, np.maximum(one, other), np.minimum(one, other))
        while (part != part[part]).any():
            part = part[part]


def _meetings(paths: Paths) -> _Meetings:
    """Return every meeting of two segments, once for each path in it."""
    line, heads = paths.owners, paths.heads
    start, base = paths.xy[heads], paths.along[heads]
    step = paths.xy[heads + 1] - start
    moves = np.hypot(*step.T) > 0
    line, start, step, base = line[moves], start[moves], step[moves], base[moves]
    first, second = _near(start, step)
    apart = (line[first] != line[second]) | (second - first > 1)
    next_ = np.flatnonzero(
        ~apart
    )  # which meets the one before, and no more unless it turns back
    apart[next_] = _are_folds(step[first[next_]], step[second[next_]])
    first, second = first[apart], second[apart]
    segment, share = _shares(start, step, first, second)
    length = np.hypot(*step.T)
    return _Meetings(
        path=line[segment],
        along=base[segment] + share * length[segment],
        place=start.take(segment, axis=0) + share[:, None] * step.take(segment, axis=0),
    )


def _near(start: Points, step: Points) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Return pairs of segments whose boxes touch or nearly do."""
    low = np.minimum(start, start + step) - MEETING_MM / 2
    high = np.maximum(start, start + step) + MEETING_MM / 2
    # a tree looks at boxes alone, and a box's diagonal is made in less time than the box
    diagonals = np.asarray(shapely.linestrings(np.stack([low, high], axis=1)))
    pairs = shapely.STRtree(diagonals).query(diagonals)
    first, second = pairs[:, pairs[0] < pairs[1]]
    return first, second


def _shares(
    start: Points, step: Points, first: NDArray[np.intp], second: NDArray[np.intp]
) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
    """Return, for each meeting and each of its two segments, how far along it that is.

    Segments that cross meet in a point; of segments that run along one another, the ends that
    lie on the other do: they are nodes of both, since a line may go straight on there.
    """
    room = MEETING_MM / 2 / np.hypot(*step.T)
    offset = start[second] - start[first]
    cross = _cross(step[first], step[second])
    length = np.hypot(*step.T)
    is_beside = np.abs(cross) <= PARALLEL * length[first] * length[second]
    slope = np.where(is_beside, np.inf, cross)
    on_first = _cross(offset, step[second]) / slope
    on_second = _cross(offset, step[first]) / slope
    meets = (
        ~is_beside
        & (np.abs(on_first - 0.5) <= 0.5 + room[first])
        & (np.abs(on_second - 0.5) <= 0.5 + room[second])
    )
    segments = [first[meets], second[meets]]
    shares = [on_first[meets], on_second[meets]]
    for one, other in ((first, second), (second, first)):
        one, other = one[is_beside], other[is_beside]  # noqa: PLW2901 - the same pairs, fewer
        for at, end in ((0.0, start[other]), (1.0, start[other] + step[other])):
            share = _projected(end, start[one], step[one])
            off = np.hypot(*(start[one] + share[:, None] * step[one] - end).T)
            inside = (share >= 0) & (share <= 1) & (off <= MEETING_MM / 2)
            segments += [one[inside], other[inside]]
            shares += [share[inside], np.full(inside.sum(), at)]
    return np.concatenate(segments), np.clip(np.concatenate(shares), 0.0, 1.0)


def _are_folds(step: Points, after: Points) -> NDArray[np.bool_]:
    """Return where a line turns right back, onto itself."""
    ahead = step[:, 0] * after[:, 0] + step[:, 1] * after[:, 1]
    return np.asarray((ahead < 0) & (np.abs(_cross(step, after)) <= -PARALLEL * ahead))


def _projected(point: Points, start: Points, step: Points) -> NDArray[np.float64]:
    return np.asarray(((point - start) * step).sum(axis=1) / (step**2).sum(axis=1))


def _cross(a: Points, b: Points) -> NDArray[np.float64]:
    return np.asarray(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])


def _neighbours(
    keys: NDArray[np.int64], place: Points
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Return pairs of cells next to each other whose places are near."""
    beside = np.flatnonzero(np.diff(keys) == 1)
    pairs = [np.stack([beside, beside + 1])]
    at = np.minimum(np.searchsorted(keys, keys + _ROW - 1), len(keys) - 1)
    below = np.flatnonzero(keys.take(at) - keys <= _ROW + 1)
    for step in (_ROW - 1, _ROW, _ROW + 1):
        wanted = keys[below] + step
        at = np.minimum(np.searchsorted(keys, wanted), len(keys) - 1)
        found = keys[at] == wanted
        pairs.append(np.stack([below, at])[:, found])
    one, other = np.concatenate(pairs, axis=1)
    near = np.hypot(*(place[one] - place[other]).T) <= MEETING_MM
    return one[near], other[near]
