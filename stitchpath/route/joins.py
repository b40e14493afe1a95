"""Ways over what is sewn anyway, from one node to another, that cost less than a cut."""

from collections import defaultdict
from dataclasses import dataclass, field
from heapq import heappop, heappush
from typing import TypeAlias

import numpy as np

from stitchpath.route.costs import Costs
from stitchpath.route.graph import LineGraph
from stitchpath.route.legs import Leg


@dataclass(frozen=True, slots=True, kw_only=True)
class _Step:
    """A stretch taken from a node: where to, at what cost, and as which leg."""

    to: int
    seconds: float
    leg: Leg


Reached: TypeAlias = dict[int, tuple[float, _Step | None, int]]
"""For each node reached: the seconds to it, the last step, and the node before."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Joins:
    """The cheapest ways over lines that may be sewn again; each is looked for once.

    Attributes:
        steps: The stretches from each node.
        most_seconds: What a cut costs: dearer ways are not looked for.
        known: What has been found from a node.
    """

    steps: dict[int, list[_Step]]
    most_seconds: float
    known: dict[int, Reached] = field(default_factory=dict)

    def from_node(self, node: int) -> Reached:
        """Return every node that can be reached for less than a cut, and how."""
        if node not in self.known:
            self.known[node] = _reach(self.steps, node, self.most_seconds)
        return self.known[node]

    def seconds(self, start: int, end: int) -> float | None:
        """Return what the cheapest way costs; None where a cut costs no more."""
        found = self.from_node(start).get(end)
        return None if found is None else found[0]

    def legs(self, start: int, end: int) -> list[Leg]:
        """Return the cheapest way in legs, in order; it must exist."""
        reached = self.from_node(start)
        legs: list[Leg] = []
        _, step, before = reached[end]
        while step is not None:
            legs.append(step.leg)
            _, step, before = reached[before]
        return legs[::-1]


def find_joins(graph: LineGraph, costs: Costs) -> Joins:
    """Return the ways of a graph over lines that the costs allow to be sewn again."""
    steps: dict[int, list[_Step]] = defaultdict(list)
    for line, (nodes, along) in enumerate(zip(graph.nodes, graph.along, strict=True)):
        per_mm = costs.again_per_mm(graph.lines[line])
        if per_mm is None:
            continue
        seconds = (np.diff(along) * per_mm).tolist()
        stops, places = nodes.tolist(), along.tolist()
        for index, cost in enumerate(seconds):
            leg = Leg(
                line=line,
                start=places[index],
                end=places[index + 1],
                nodes=(stops[index], stops[index + 1]),
                again=True,
            )
            steps[stops[index]].append(_Step(to=stops[index + 1], seconds=cost, leg=leg))
            steps[stops[index + 1]].append(
                _Step(to=stops[index], seconds=cost, leg=leg.reversed())
            )
    return Joins(steps=dict(steps), most_seconds=costs.cut_seconds)


def _reach(steps: dict[int, list[_Step]], start: int, most_seconds: float) -> Reached:
    """Return the cheapest ways from a node that cost less than a cut (Dijkstra)."""
    found: Reached = {start: (0.0, None, start)}
    queue = [(0.0, start)]
    while queue:
        seconds, node = heappop(queue)
        if seconds > found[node][0]:
            continue
        for step in steps.get(node, ()):
            total = seconds + step.seconds
            if total < most_seconds and (step.to not in found or total < found[step.to][0]):
                found[step.to] = (total, step, node)
                heappush(queue, (total, step.to))
    return found
