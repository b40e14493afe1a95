"""Closed walks let into other walks where they meet, so that each part takes the fewest."""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.paths import distances_along
from stitchpath.geometry.tolerance import MEETING_MM
from stitchpath.route.graph import LineGraph
from stitchpath.route.legs import Leg, Trail, heading

_TIE_ROOM_MM = 3.0
"""A closed line is not begun nearer to a corner if it can be helped: its tie would go round."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Meeting:
    """A place where a closed walk meets another: how far along which line of each."""

    node: int
    own: tuple[int, float]
    other: tuple[int, float]
    trail: int


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Splicer:
    """Walks while closed ones are let into others.

    Attributes:
        graph: The lines.
        late: For each line, how late it is sewn.
        visits: For each node, the lines through it and how far along them it lies.
        kept: The walks that are left, by number.
        owner: The walk that each line belongs to.
        anchored: The walks that have an anchor.
    """

    graph: LineGraph
    late: NDArray[np.intp]
    visits: Mapping[int, list[tuple[int, float]]]
    kept: dict[int, Trail]
    owner: dict[int, int]
    anchored: set[int]

    def let_in(self, index: int) -> None:
        """Let a closed walk into one that it meets, if there is one."""
        closed = self.kept[index]
        best = min(self._meetings(index), key=self._cost, default=None)
        if best is None:
            return
        self.kept[best.trail] = _with_detour(self.graph, self.kept[best.trail], closed, best)
        for leg in closed:
            if not leg.again:
                self.owner[leg.line] = best.trail
        if index in self.anchored:
            self.anchored.add(best.trail)
        del self.kept[index]

    def _meetings(self, index: int) -> Iterator[_Meeting]:
        for leg in self.kept[index]:
            nodes, along = self.graph.nodes[leg.line], self.graph.along[leg.line]
            for node, distance in zip(nodes.tolist(), along.tolist(), strict=True):
                if not _holds(leg, leg.line, distance):
                    continue
                for line, place in self.visits[node]:
                    if self.owner.get(line, index) != index:  # lines left out have none
                        yield _Meeting(
                            node=node,
                            own=(leg.line, distance),
                            other=(line, place),
                            trail=self.owner[line],
                        )

    def _cost(self, meeting: _Meeting) -> tuple[bool, bool, bool, int]:
        trail = self.kept[meeting.trail]
        is_end = meeting.node in {trail[0].nodes[0], trail[-1].nodes[1]}
        late = int(self.late[meeting.other[0]])
        return (
            not is_end,
            meeting.trail in self.anchored,
            is_end and self._is_beside_corner(*meeting.own),
            -late,
        )

    def _is_beside_corner(self, line: int, along: float) -> bool:
        away = np.abs(distances_along(self.graph.lines[line].points) - along)
        return bool(((away > MEETING_MM) & (away < _TIE_ROOM_MM)).any())


def splice_closed(graph: LineGraph, trails: list[Trail], late: NDArray[np.intp]) -> list[Trail]:
    """Return the walks with each closed one let into one that it meets.

    A closed walk that meets no other is left as it is. A meeting on the other walk's end is
    taken before one in its middle, since nothing has to turn off there; anchors and places just
    beside a corner are left alone where another will do, and of the others the one sewn last is
    taken.

    Args:
        graph: The lines.
        trails: Walks that together sew every line once.
        late: For each line, how late it is sewn; larger is later.
    """
    closed = {
        index: trail
        for index, trail in enumerate(trails)
        if trail[0].nodes[0] == trail[-1].nodes[1]
    }
    if not closed:
        return trails
    own = [(leg, index) for index, trail in enumerate(trails) for leg in trail if not leg.again]
    splicer = _Splicer(
        graph=graph,
        late=late,
        visits=_visits(graph, list(closed.values())),
        kept=dict(enumerate(trails)),
        owner={leg.line: index for leg, index in own},
        anchored={index for leg, index in own if graph.lines[leg.line].anchor},
    )
    for index in closed:
        splicer.let_in(index)
    return list(splicer.kept.values())


def _visits(graph: LineGraph, trails: list[Trail]) -> dict[int, list[tuple[int, float]]]:
    """Return the lines through each node of some walks, and how far along them it lies."""
    wanted = np.zeros(len(graph.places), dtype=np.bool_)
    for line in {leg.line for trail in trails for leg in trail}:
        wanted[graph.nodes[line]] = True
    visits: dict[int, list[tuple[int, float]]] = defaultdict(list)
    for line, (nodes, along) in enumerate(zip(graph.nodes, graph.along, strict=True)):
        seen = wanted[nodes]
        for node, distance in zip(nodes[seen].tolist(), along[seen].tolist(), strict=True):
            visits[node].append((line, distance))
    return visits


def _with_detour(graph: LineGraph, trail: Trail, closed: Trail, meeting: _Meeting) -> Trail:
    """Return a walk that goes round a closed one where they meet, the straighter way."""
    node = meeting.node
    index = _leg_at(closed, *meeting.own)
    before, after = _parted(closed[index], meeting.own[1], node)
    detour = [*after, *closed[index + 1 :], *closed[:index], *before]
    if trail[0].nodes[0] == node:
        come, go = [], trail
    elif trail[-1].nodes[1] == node:
        come, go = trail, []
    else:
        index = _leg_at(trail, *meeting.other)
        before, after = _parted(trail[index], meeting.other[1], node)
        come, go = [*trail[:index], *before], [*after, *trail[index + 1 :]]
    other = [leg.reversed() for leg in reversed(detour)]
    detour = min(detour, other, key=lambda way: _bend(graph, come, way) + _bend(graph, way, go))
    return [*come, *detour, *go]


def _bend(graph: LineGraph, come: Trail, go: Trail) -> float:
    """Return how sharp the turn between two walks is: -1 for none, 1 for going back."""
    if not come or not go:
        return 0.0
    return float(heading(graph, come[-1], 1) @ heading(graph, go[0], 0))


def _holds(leg: Leg, line: int, distance: float) -> bool:
    if leg.line != line or leg.again:
        return False
    return min(leg.start, leg.end) <= distance <= max(leg.start, leg.end)


def _leg_at(trail: Trail, line: int, distance: float) -> int:
    return next(index for index, leg in enumerate(trail) if _holds(leg, line, distance))


def _parted(leg: Leg, distance: float, node: int) -> tuple[list[Leg], list[Leg]]:
    """Return what of a leg lies before and after a place on it; nothing at its ends."""
    before = replace(leg, end=distance, nodes=(leg.nodes[0], node))
    after = replace(leg, start=distance, nodes=(node, leg.nodes[1]))
    return (
        [before] if before.start != before.end else [],
        [after] if after.start != after.end else [],
    )
