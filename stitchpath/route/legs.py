"""Legs and trails: parts of lines, and walks made of them."""

from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np

from stitchpath.geometry.paths import cut_path, points_at
from stitchpath.geometry.points import Points
from stitchpath.route.graph import LineGraph

_GLANCE_MM = 0.5
"""How far along a leg its direction is taken."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """A part of a line, by distances along it in mm; against the line where `start` > `end`.

    Attributes:
        line: Index of the line.
        start: Where the leg begins.
        end: Where it ends.
        nodes: The nodes at its start and end.
        again: Whether it goes over what is sewn anyway.
    """

    line: int
    start: float
    end: float
    nodes: tuple[int, int]
    again: bool = False

    def reversed(self) -> "Leg":
        """Return the leg the other way round."""
        return replace(self, start=self.end, end=self.start, nodes=self.nodes[::-1])


Trail: TypeAlias = list[Leg]
"""Legs that follow on one another: each begins on the node where the one before ends."""


def whole_leg(graph: LineGraph, line: int) -> Leg:
    """Return all of a line as a leg."""
    nodes, along = graph.nodes[line], graph.along[line]
    return Leg(
        line=line,
        start=float(along[0]),
        end=float(along[-1]),
        nodes=(int(nodes[0]), int(nodes[-1])),
    )


def heading(graph: LineGraph, leg: Leg, side: int) -> Points:
    """Return the unit vector from a leg's start (0) or end (1) into the leg, shape (2,)."""
    at, other = (leg.start, leg.end) if side == 0 else (leg.end, leg.start)
    ahead = at + np.clip(other - at, -_GLANCE_MM, _GLANCE_MM)
    here, there = points_at(graph.lines[leg.line].points, np.array([at, ahead]))
    return np.asarray((there - here) / (np.hypot(*(there - here)) or 1.0))


def points_of(graph: LineGraph, leg: Leg) -> Points:
    """Return the vertices of a leg in the order of the line."""
    bounds = np.array([sorted((leg.start, leg.end))])
    return cut_path(graph.lines[leg.line].points, bounds)[0]
