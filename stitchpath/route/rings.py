"""A closed edge line, sewn in one go with the walk that comes last.

A ring that begins and ends where the needle is takes no run of its own, wherever that is. So
it is left out while walks are ordered and goes on from the end of the last one, if that lies on
it: no loop is closed before all that lies inside is sewn, and every end is free to be joined.
"""

from dataclasses import replace

import numpy as np

from stitchpath.model.line import LineKind
from stitchpath.route.graph import LineGraph
from stitchpath.route.legs import Leg, heading
from stitchpath.route.walk import Walk, walk_of


def find_ring(graph: LineGraph) -> int | None:
    """Return the one closed edge line; None where there is none, or several, or it alone."""
    rings = [
        index
        for index, (line, nodes) in enumerate(zip(graph.lines, graph.nodes, strict=True))
        if line.kind is LineKind.EDGE and nodes[0] == nodes[-1]
    ]
    return rings[0] if len(rings) == 1 < len(graph.lines) else None


def ring_from(graph: LineGraph, ring: int, walk: Walk) -> Walk | None:
    """Return a ring begun where a walk ends, the way that turns least.

    Args:
        graph: The lines.
        ring: Which of them is the ring.
        walk: What is sewn before it.

    Returns:
        The ring; None where the walk does not end on it.
    """
    at = np.flatnonzero(graph.nodes[ring] == walk.nodes[1])
    if not len(at):
        return None
    node, along = walk.nodes[1], float(graph.along[ring][at[0]])
    first, last = int(graph.nodes[ring][0]), float(graph.along[ring][-1])
    after = Leg(line=ring, start=along, end=last, nodes=(node, first))
    before = Leg(line=ring, start=0.0, end=along, nodes=(first, node))
    legs = [leg for leg in (after, before) if leg.start != leg.end]
    ways = [legs, [leg.reversed() for leg in reversed(legs)]]
    step = np.diff(walk.lines[-1].points[-2:], axis=0)[0]
    best = max(ways, key=lambda way: round(float(step @ heading(graph, way[0], 0)), 6))
    begun = walk_of(graph, best)
    return replace(begun, sources=begun.sources[:1])
