"""Walks: lines that are sewn one after another without a hop."""

from dataclasses import dataclass, replace
from functools import cached_property
from typing import Optional

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.model.line import Line, LineKind
from stitchpath.route.graph import LineGraph
from stitchpath.route.legs import Leg, Trail, points_of

_KIND_ORDER = {kind: rank for rank, kind in enumerate(LineKind, start=1)}


@dataclass(frozen=True, kw_only=True, eq=False)
class Walk:
    """Lines sewn one after another without a hop.

    Attributes:
        lines: In order, each in its direction.
        legs: What of the graph's lines each of them is, whichever way round.
        sources: The graph's lines that they are parts of, without those sewn again.
        nodes: Where it begins and where it ends.
    """

    lines: tuple[Line, ...]
    legs: tuple[Leg, ...]
    sources: tuple[int, ...]
    nodes: tuple[int, int]

    @cached_property
    def ends(self) -> Points:
        """Where it begins and where it ends, shape (2, 2)."""
        return np.array([self.lines[0].points[0], self.lines[-1].points[-1]])

    @cached_property
    def places(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Where it begins and where it ends, as numbers."""
        (x, y), (x_last, y_last) = self.ends.tolist()
        return (x, y), (x_last, y_last)

    @cached_property
    def rank(self) -> int:
        """0 for anchors; else the place of its last kind in the order of kinds."""
        if any(line.anchor for line in self.lines):
            return 0
        return max(_KIND_ORDER[line.kind] for line in self.lines)

    @property
    def is_backwards(self) -> bool:
        """Whether an edge, mouth or seam is sewn before a line that comes first by its kind."""
        kinds = [_KIND_ORDER[line.kind] for line in self.lines if not line.again]
        return kinds[-1] < kinds[0]

    @cached_property
    def reversed(self) -> "Walk":
        """The walk the other way round."""
        return Walk(
            lines=tuple(line.reversed() for line in reversed(self.lines)),
            legs=self.legs[::-1],
            sources=self.sources[::-1],
            nodes=self.nodes[::-1],
        )

    def then(self, walk: Optional["Walk"]) -> "Walk":
        """Return this walk going on with another one, if there is one."""
        if walk is None:
            return self
        return Walk(
            lines=self.lines[:-1] + _going_on((self.lines[-1], *walk.lines)),
            legs=self.legs + walk.legs,
            sources=self.sources + walk.sources,
            nodes=(self.nodes[0], walk.nodes[1]),
        )


def walk_of(graph: LineGraph, trail: Trail) -> Walk:
    """Return a trail as lines; legs that go on along the same line become one."""
    legs = tuple(_merged(trail))
    return Walk(
        lines=_going_on(tuple(_line(graph, leg) for leg in legs)),
        legs=legs,
        sources=tuple(leg.line for leg in trail if not leg.again),
        nodes=(trail[0].nodes[0], trail[-1].nodes[1]),
    )


def _going_on(lines: tuple[Line, ...]) -> tuple[Line, ...]:
    """Return lines where what is sewn again has the stitch of the line before it.

    Another stitch would want ties on both sides.
    """
    changed = list(lines[:1])
    for line in lines[1:]:
        stitch_mm = changed[-1].stitch_mm
        differs = line.again and line.stitch_mm != stitch_mm
        changed.append(replace(line, stitch_mm=stitch_mm) if differs else line)
    return tuple(changed)


def _merged(trail: Trail) -> Trail:
    merged = trail[:1]
    for leg in trail[1:]:
        last = merged[-1]
        goes_on = (last.line, last.end, last.again) == (leg.line, leg.start, leg.again)
        if goes_on and (last.start < last.end) == (leg.start < leg.end):
            merged[-1] = replace(last, end=leg.end, nodes=(last.nodes[0], leg.nodes[1]))
        else:
            merged.append(leg)
    return merged


def _line(graph: LineGraph, leg: Leg) -> Line:
    line, along = graph.lines[leg.line], graph.along[leg.line]
    forward = leg if leg.start < leg.end else leg.reversed()
    is_all = forward.start == along[0] and forward.end == along[-1]
    if is_all and not leg.again and graph.is_exact[leg.line]:
        part = line
    else:
        points = line.points if is_all else points_of(graph, forward)
        part = replace(
            line,
            points=_between(points, *graph.places[list(forward.nodes)]),
            whole=line.whole if is_all else (),
            again=leg.again,
            anchor=line.anchor and not leg.again,
        )
    return part if forward is leg else part.reversed()


def _between(points: Points, start: Points, end: Points) -> Points:
    """Return points that begin and end exactly on two nodes, so that nothing is left to hop."""
    moved = points.copy()
    moved[0], moved[-1] = start, end
    return moved
