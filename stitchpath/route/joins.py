"""Ways over what is sewn anyway, from one node to another, that cost less than a cut."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field
from heapq import heappop, heappush
from itertools import pairwise
from math import inf
from typing import NamedTuple, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.paths import cut_path, distances_along
from stitchpath.geometry.tolerance import ROUNDING_MM, SAME_POINT_MM
from stitchpath.route.costs import Costs
from stitchpath.route.graph import LineGraph
from stitchpath.route.hops import Barriers, is_barred
from stitchpath.route.legs import Leg


class _Step(NamedTuple):
    """A stretch taken from a node: where to, at what cost, over what of which line."""

    to: int
    seconds: float
    line: int
    start: float
    end: float


_Steps: TypeAlias = Mapping[int, list[_Step]]


@dataclass(slots=True, kw_only=True)
class _Search:
    """The cheapest ways from a node, found as far as they are asked for (Dijkstra).

    Attributes:
        seconds: What the cheapest way to a node costs; final where the node is settled.
        last: The last step of that way, and the node before it.
        settled: Nodes whose way is final, in the order of their cost.
        queue: What is to be looked at next.
    """

    seconds: dict[int, float]
    queue: list[tuple[float, int]]
    last: dict[int, tuple[_Step, int]] = field(default_factory=dict)
    settled: dict[int, float] = field(default_factory=dict)

    def go_on(
        self, steps: _Steps, most_seconds: float, end: int | None = None, within: float = inf
    ) -> None:
        """Settle nodes up to a given one, or all that cost less than a cut and than a limit."""
        while self.queue and (end is None or end not in self.settled):
            if self.queue[0][0] >= within:
                return
            seconds, node = heappop(self.queue)
            if node in self.settled:
                continue
            self.settled[node] = seconds
            for step in steps.get(node, ()):
                total = seconds + step.seconds
                if total < min(most_seconds, self.seconds.get(step.to, most_seconds)):
                    self.seconds[step.to] = total
                    self.last[step.to] = step, node
                    heappush(self.queue, (total, step.to))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Joins:
    """The cheapest ways over lines that may be sewn again.

    Attributes:
        steps: The stretches from each node.
        most_seconds: What a cut costs: ways that cost as much or more are not looked for.
        searches: What has been looked for, by the node that the ways begin on.
    """

    steps: _Steps
    most_seconds: float
    searches: dict[int, _Search] = field(default_factory=dict)

    def from_node(self, node: int) -> dict[int, float]:
        """Return every node that can be reached for less than a cut, and what that costs."""
        search = self._search(node)
        search.go_on(self.steps, self.most_seconds)
        return search.settled

    def seconds(self, start: int, end: int, *, within: float = inf) -> float | None:
        """Return what the cheapest way costs; None where a cut or a limit is no more."""
        if start != end and end not in self.steps:
            return None
        search = self._search(start)
        search.go_on(self.steps, self.most_seconds, end, within)
        return search.settled.get(end)

    def legs(self, start: int, end: int) -> list[Leg]:
        """Return the cheapest way in legs, in order; it must exist."""
        last = self._search(start).last
        legs: list[Leg] = []
        while end != start:
            step, node = last[end]
            nodes = (node, end)
            legs.append(
                Leg(line=step.line, start=step.start, end=step.end, nodes=nodes, again=True)
            )
            end = node
        return legs[::-1]

    def _search(self, node: int) -> _Search:
        if node not in self.searches:
            self.searches[node] = _Search(seconds={node: 0.0}, queue=[(0.0, node)])
        return self.searches[node]


def find_joins(graph: LineGraph, costs: Costs, barriers: Barriers = None) -> Joins:
    """Return the ways of a graph over lines that the costs allow to be sewn again.

    Args:
        graph: The lines.
        costs: Which lines may be sewn again, and what that costs.
        barriers: What no way leads over, even where a line does.

    Returns:
        The ways, but for those over pieces too short for a file to tell their ends apart: a
        corner beside a node, two nodes beside one another.
    """
    steps: dict[int, list[_Step]] = defaultdict(list)
    for line, nodes in enumerate(graph.nodes):
        per_mm = costs.again_per_mm(graph.lines[line])
        if per_mm is None:
            continue
        may = _sewable(graph, line) & ~_barred(graph, line, barriers)
        stretches = zip(
            pairwise(nodes.tolist()),
            pairwise(graph.along[line].tolist()),
            may.tolist(),
            strict=True,
        )
        for (one, other), (start, end), is_way in stretches:
            if is_way:
                seconds = (end - start) * per_mm
                steps[one].append(_Step(other, seconds, line, start, end))
                steps[other].append(_Step(one, seconds, line, end, start))
    return Joins(steps=dict(steps), most_seconds=costs.cut_seconds)


def _sewable(graph: LineGraph, line: int) -> NDArray[np.bool_]:
    """Return which stretches have no piece so short that its ends may round to one place."""
    along = graph.along[line]
    vertices = np.unique(np.concatenate([along, distances_along(graph.lines[line].points)]))
    steps = np.diff(vertices)
    short = vertices[:-1][(steps > SAME_POINT_MM) & (steps < ROUNDING_MM)]
    at = np.clip(np.searchsorted(along, short, side="right") - 1, 0, len(along) - 2)
    sewable = np.ones(len(along) - 1, dtype=np.bool_)
    sewable[at] = False
    return sewable


def _barred(graph: LineGraph, line: int, barriers: Barriers) -> NDArray[np.bool_]:
    """Return which stretches of a line meet barriers."""
    along, points = graph.along[line], graph.lines[line].points
    barred = np.zeros(len(along) - 1, dtype=np.bool_)
    if barriers is None or not shapely.intersects(barriers, shapely.LineString(points)):
        return barred
    parts = cut_path(points, np.column_stack([along[:-1], along[1:]]))
    for index, part in enumerate(parts):
        barred[index] = is_barred(part, barriers)
    return barred
