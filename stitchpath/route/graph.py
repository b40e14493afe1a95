"""The lines of a hooping as a planar graph: where they end, meet and cross.

A *node* is a place where a line ends or meets a line; a *stretch* lies between two nodes next
to each other on a line. Every line of a graph keeps its nodes in order.
"""

from dataclasses import dataclass

import numpy as np
import rustworkx
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.paths import distances_along
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import MEETING_MM
from stitchpath.model.line import Line

_PARALLEL = 1e-9  # sine of the angle below which segments run along one another
_SHIFT = 0.3819  # of a cell; no length in mm, cm or sixteenths of an inch ends so
_ROW = 2**32  # more cells than any piece has side by side


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class LineGraph:
    """Lines and the nodes on them.

    Attributes:
        lines: The lines.
        places: Where each node lies, shape (n, 2), mm.
        nodes: For each line, its nodes in order; the first and last are its ends.
        along: For each line, how far along it each of its nodes lies, mm.
        parts: For each node, the number of its connected part, shape (places,).
    """

    lines: tuple[Line, ...]
    places: Points
    nodes: tuple[NDArray[np.intp], ...]
    along: tuple[NDArray[np.float64], ...]
    parts: NDArray[np.intp]

    @property
    def ends(self) -> NDArray[np.intp]:
        """The nodes at both ends of each line, shape (lines, 2)."""
        return np.array([(nodes[0], nodes[-1]) for nodes in self.nodes]).reshape(-1, 2)

    @property
    def least_runs(self) -> int:
        """The fewest runs that sew every line once: for each part half its odd nodes, or one.

        Euler's theorem; only line ends make the degree of a node odd.
        """
        is_odd = np.bincount(self.ends.ravel(), minlength=len(self.places)) % 2
        odd_of_part = np.bincount(self.parts, weights=is_odd)
        return int(np.maximum(odd_of_part / 2, 1).sum())


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Visits:
    """Lines at places, one row each: which line, how far along it, and where that is."""

    line: NDArray[np.intp]
    along: NDArray[np.float64]
    place: Points


def line_graph(lines: tuple[Line, ...]) -> LineGraph:
    """Return the graph of some lines; there is at least one.

    Places nearer than `MEETING_MM` are one node. Where lines run along one another, the ends of
    the common part are nodes.

    Cost: O((segments + crossings) log), in whole arrays.
    """
    distances = [distances_along(line.points) for line in lines]
    ends = _Visits(
        line=np.repeat(np.arange(len(lines)), 2),
        along=np.concatenate([[0.0, distance[-1]] for distance in distances]),
        place=np.concatenate([line.points[[0, -1]] for line in lines]),
    )
    meetings = _meetings(lines, distances)
    line = np.concatenate([ends.line, meetings.line])
    along = np.concatenate([ends.along, meetings.along])
    place = np.concatenate([ends.place, meetings.place])
    node, places = _clustered(place)
    order = np.lexsort((along, line))
    line, along, node = line[order], along[order], node[order]
    seen = (np.diff(line) == 0) & (np.diff(node) == 0) & (np.diff(along) < 2 * MEETING_MM)
    keep = np.concatenate([[True], ~seen])
    line, along, node = line[keep], along[keep], node[keep]
    bounds = np.searchsorted(line, np.arange(1, len(lines)))
    along[np.append(bounds, len(along)) - 1] = [distance[-1] for distance in distances]
    return LineGraph(
        lines=lines,
        places=places,
        nodes=tuple(np.split(node, bounds)),
        along=tuple(np.split(along, bounds)),
        parts=_parts(line, node),
    )


def _meetings(lines: tuple[Line, ...], distances: list[NDArray[np.float64]]) -> _Visits:
    """Return every meeting of two segments, once for each line in it."""
    line = np.repeat(np.arange(len(lines)), [len(each.points) - 1 for each in lines])
    start = np.concatenate([each.points[:-1] for each in lines])
    step = np.concatenate([np.diff(each.points, axis=0) for each in lines])
    base = np.concatenate([distance[:-1] for distance in distances])
    moves = np.hypot(*step.T) > 0
    line, start, step, base = line[moves], start[moves], step[moves], base[moves]
    first, second = _near(start, step)
    apart = (line[first] != line[second]) | (second - first > 1)
    first, second = first[apart], second[apart]
    segment, share = _shares(start, step, first, second)
    length = np.hypot(step[segment, 0], step[segment, 1])
    return _Visits(
        line=line[segment],
        along=base[segment] + share * length,
        place=start[segment] + share[:, None] * step[segment],
    )


def _near(start: Points, step: Points) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Return pairs of segments whose boxes touch or nearly do."""
    low = np.minimum(start, start + step) - MEETING_MM / 2
    high = np.maximum(start, start + step) + MEETING_MM / 2
    boxes = np.asarray(shapely.box(*low.T, *high.T))
    pairs = shapely.STRtree(boxes).query(boxes)
    first, second = pairs[:, pairs[0] < pairs[1]]
    return first, second


def _shares(
    start: Points, step: Points, first: NDArray[np.intp], second: NDArray[np.intp]
) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
    """Return, for each meeting and each of its two segments, how far along it that is.

    Segments that cross meet in a point; of segments that run along one another, the ends that
    lie on the other do.
    """
    room = MEETING_MM / 2 / np.hypot(*step.T)
    offset = start[second] - start[first]
    cross = _cross(step[first], step[second])
    length = np.hypot(*step.T)
    is_beside = np.abs(cross) <= _PARALLEL * length[first] * length[second]
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
        for end in (start[other], start[other] + step[other]):
            share = _projected(end, start[one], step[one])
            off = np.hypot(*(start[one] + share[:, None] * step[one] - end).T)
            inside = (share >= 0) & (share <= 1) & (off <= MEETING_MM / 2)
            segments.append(one[inside])
            shares.append(share[inside])
    return np.concatenate(segments), np.clip(np.concatenate(shares), 0.0, 1.0)


def _projected(point: Points, start: Points, step: Points) -> NDArray[np.float64]:
    return np.asarray(((point - start) * step).sum(axis=1) / (step**2).sum(axis=1))


def _cross(a: Points, b: Points) -> NDArray[np.float64]:
    return np.asarray(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])


def cells_of(place: Points) -> NDArray[np.int64]:
    """Return the cell of a fine grid that each place lies in, shape (n, 2).

    The grid is shifted, so that designed lengths and their halves lie off its borders.
    """
    return np.asarray(np.floor(place / MEETING_MM + _SHIFT).astype(np.int64))


def _clustered(place: Points) -> tuple[NDArray[np.intp], Points]:
    """Return a node for each place, and where the nodes lie; near places share a node.

    Places are told apart by their cells, and cells next to each other are one where what lies
    in them is near.
    """
    cell = cells_of(place)
    key = cell[:, 0] * _ROW + cell[:, 1]
    keys, head, node = np.unique(key, return_index=True, return_inverse=True)
    one, other = _neighbours(keys, place[head])
    if len(one):
        parts = _components(len(keys), one, other)
        _, first, merged = np.unique(parts, return_index=True, return_inverse=True)
        node, head = merged[node], head[first]
    return node, place[head]


def _neighbours(
    keys: NDArray[np.int64], place: Points
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Return pairs of cells next to each other whose places are near."""
    pairs = [np.empty((2, 0), dtype=np.intp)]
    for step in (1, _ROW - 1, _ROW, _ROW + 1):
        at = np.minimum(np.searchsorted(keys, keys + step), len(keys) - 1)
        one = np.flatnonzero(keys[at] == keys + step)
        other = at[one]
        near = np.hypot(*(place[one] - place[other]).T) <= MEETING_MM
        pairs.append(np.stack([one, other])[:, near])
    one, other = np.concatenate(pairs, axis=1)
    return one, other


def _parts(line: NDArray[np.intp], node: NDArray[np.intp]) -> NDArray[np.intp]:
    """Return for each node the number of its connected part, from which line visits which."""
    order = np.argsort(node, kind="stable")
    line, node = line[order], node[order]
    meets = np.diff(node) == 0
    part = _components(int(line.max()) + 1, line[:-1][meets], line[1:][meets])
    return np.asarray(part[line[np.append([True], ~meets)]])


def _components(
    count: int, starts: NDArray[np.intp], ends: NDArray[np.intp]
) -> NDArray[np.intp]:
    """Return for each of `count` nodes the number of its connected part, shape (count,)."""
    graph: rustworkx.PyGraph[None, None] = rustworkx.PyGraph()
    graph.add_nodes_from([None] * count)
    graph.add_edges_from_no_data(list(zip(starts.tolist(), ends.tolist(), strict=True)))
    part = np.empty(count, dtype=np.intp)
    for number, members in enumerate(rustworkx.connected_components(graph)):
        part[list(members)] = number
    return part
