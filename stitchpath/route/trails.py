"""Trails: the fewest unbroken walks that sew every stretch of a graph once.

A connected part of a graph with 2k nodes of odd degree needs max(1, k) walks and no more
(Euler; Listing). Lines go straight on where they cross, so only line ends are joined, and
closed walks are let into others where they meet.
"""

from collections import defaultdict
from collections.abc import Collection, Iterable

import numpy as np
from numpy.typing import NDArray

from stitchpath.route.graph import LineGraph
from stitchpath.route.legs import Leg, Trail, heading, whole_leg
from stitchpath.route.splice import splice_closed


def find_trails(
    graph: LineGraph,
    again: Iterable[Leg] = (),
    late: NDArray[np.intp] | None = None,
    *,
    without: Collection[int] = (),
) -> list[Trail]:
    """Return walks that together sew every line once, and the legs to sew again.

    Args:
        graph: The lines.
        again: Legs that go over lines a second time; they must begin and end on nodes.
        late: For each line, how late it is sewn: a closed line that may be let in at several
            ends is let in at the latest. None where that does not matter.
        without: Lines to leave out.

    Returns:
        For each connected part at most max(1, odd nodes / 2) walks, where a node's degree
        counts the legs to sew again too, and exactly so many without such legs; in the order
        of their first lines.
    """
    legs = [whole_leg(graph, line) for line in range(len(graph.lines)) if line not in without]
    legs += again
    partner = _joined_ends(graph, legs)
    trails = _walk(legs, partner)
    if late is None:
        late = np.zeros(len(graph.lines), dtype=np.intp)
    return [
        _trimmed(trail)
        for trail in splice_closed(graph, trails, late)
        if not all(leg.again for leg in trail)
    ]


def _trimmed(trail: Trail) -> Trail:
    """Return a walk without legs sewn again at its ends, where they join nothing."""
    own = [index for index, leg in enumerate(trail) if not leg.again]
    return trail[own[0] : own[-1] + 1]


_End = tuple[int, int]
"""A leg's index and which of its ends: 0 for its start, 1 for its end."""


def _joined_ends(graph: LineGraph, legs: list[Leg]) -> dict[_End, _End]:
    """Pair the ends that meet at each node, the straightest ways on first.

    Of an odd number one end is left, so as many walks end here as must.
    """
    at_node: dict[int, list[_End]] = defaultdict(list)
    for index, leg in enumerate(legs):
        for side, node in enumerate(leg.nodes):
            at_node[node].append((index, side))
    partner: dict[_End, _End] = {}
    for ends in at_node.values():
        if len(ends) == 1:
            continue
        headings = [heading(graph, legs[index], side) for index, side in ends]
        ways = sorted(
            (float(headings[one] @ headings[other]), ends[one][0] == ends[other][0], one, other)
            for one in range(len(ends))
            for other in range(one)
        )
        for _, _, one, other in ways:
            if ends[one] not in partner and ends[other] not in partner:
                partner[ends[one]], partner[ends[other]] = ends[other], ends[one]
    return partner


def _walk(legs: list[Leg], partner: dict[_End, _End]) -> list[Trail]:
    """Follow the joined ends: open walks first, then the closed ones that are left."""
    used: set[int] = set()
    loose = [
        (index, side)
        for index in range(len(legs))
        for side in (0, 1)
        if (index, side) not in partner
    ]
    starts = [*loose, *((index, 0) for index in range(len(legs)))]
    trails: list[Trail] = []
    for start in starts:
        end: _End | None = start
        trail: Trail = []
        while end is not None and end[0] not in used:
            index, side = end
            used.add(index)
            trail.append(legs[index] if side == 0 else legs[index].reversed())
            end = partner.get((index, 1 - side))
        if trail:
            trails.append(trail)
    return trails
