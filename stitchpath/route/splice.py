"""Closed walks let into other walks where they meet, so that each part takes the fewest."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, replace

from stitchpath.route.graph import LineGraph
from stitchpath.route.legs import Leg, Trail


@dataclass(frozen=True, slots=True, kw_only=True)
class _Meeting:
    """A place where a closed walk meets another: how far along which line of each."""

    node: int
    own: tuple[int, float]
    other: tuple[int, float]
    trail: int


def splice_closed(graph: LineGraph, trails: list[Trail]) -> list[Trail]:
    """Return the walks with each closed one let into one that it meets.

    A closed walk that meets no other is left as it is. A meeting on the other walk's end is
    taken before one in its middle, since nothing has to turn off there; anchors are left alone
    where another will do.
    """
    if not any(map(_is_closed, trails)):
        return trails
    kept: dict[int, Trail] = dict(enumerate(trails))
    owner = {leg.line: index for index, trail in kept.items() for leg in trail if not leg.again}
    visits = _visits(graph)
    for index in [number for number, trail in kept.items() if _is_closed(trail)]:
        closed = kept[index]
        meetings = list(_meetings(graph, closed, owner, index, visits))
        if not meetings:
            continue
        best = min(meetings, key=lambda meeting: _cost(graph, kept[meeting.trail], meeting))
        kept[best.trail] = _let_in(kept[best.trail], closed, best)
        for leg in closed:
            owner[leg.line] = best.trail
        del kept[index]
    return list(kept.values())


def _is_closed(trail: Trail) -> bool:
    return trail[0].nodes[0] == trail[-1].nodes[1]


def _visits(graph: LineGraph) -> dict[int, list[tuple[int, float]]]:
    """Return, for each node, the lines through it and how far along them it lies."""
    visits: dict[int, list[tuple[int, float]]] = defaultdict(list)
    for line, (nodes, along) in enumerate(zip(graph.nodes, graph.along, strict=True)):
        for node, distance in zip(nodes.tolist(), along.tolist(), strict=True):
            visits[node].append((line, distance))
    return visits


def _meetings(
    graph: LineGraph,
    closed: Trail,
    owner: dict[int, int],
    index: int,
    visits: dict[int, list[tuple[int, float]]],
) -> Iterator[_Meeting]:
    for leg in closed:
        nodes, along = graph.nodes[leg.line], graph.along[leg.line]
        for node, distance in zip(nodes.tolist(), along.tolist(), strict=True):
            if not _holds(leg, leg.line, distance):
                continue
            for line, place in visits[node]:
                if owner[line] != index:
                    yield _Meeting(
                        node=node,
                        own=(leg.line, distance),
                        other=(line, place),
                        trail=owner[line],
                    )


def _cost(graph: LineGraph, trail: Trail, meeting: _Meeting) -> tuple[bool, bool]:
    is_end = meeting.node in {trail[0].nodes[0], trail[-1].nodes[1]}
    return not is_end, any(graph.lines[leg.line].anchor for leg in trail)


def _let_in(trail: Trail, closed: Trail, meeting: _Meeting) -> Trail:
    """Return a walk that goes round a closed one where they meet."""
    node = meeting.node
    index = _leg_at(closed, *meeting.own)
    before, after = _cut(closed[index], meeting.own[1], node)
    turned = [*after, *closed[index + 1 :], *closed[:index], *before]
    if trail[0].nodes[0] == node:
        return [*turned, *trail]
    if trail[-1].nodes[1] == node:
        return [*trail, *turned]
    index = _leg_at(trail, *meeting.other)
    before, after = _cut(trail[index], meeting.other[1], node)
    return [*trail[:index], *before, *turned, *after, *trail[index + 1 :]]


def _holds(leg: Leg, line: int, distance: float) -> bool:
    low, high = sorted((leg.start, leg.end))
    return leg.line == line and not leg.again and low <= distance <= high


def _leg_at(trail: Trail, line: int, distance: float) -> int:
    return next(index for index, leg in enumerate(trail) if _holds(leg, line, distance))


def _cut(leg: Leg, distance: float, node: int) -> tuple[list[Leg], list[Leg]]:
    """Return what of a leg lies before and after a place on it; nothing at its ends."""
    before = replace(leg, end=distance, nodes=(leg.nodes[0], node))
    after = replace(leg, start=distance, nodes=(node, leg.nodes[1]))
    return (
        [before] if before.start != before.end else [],
        [after] if after.start != after.end else [],
    )
