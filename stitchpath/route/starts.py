"""Where closed walks begin: where it shows least, and near the needle.

A closed walk may be sewn from any place on it. It begins on an edge or in a seam if it touches
one; else where it crosses itself; else on one of its vertices. Of such places the one is taken
that adds least travel. Walks that are not closed begin and end where they must.
"""

from dataclasses import replace
from typing import TypeAlias

import numpy as np
import shapely

from stitchpath.geometry.paths import cut_path, distances_along, points_at
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import MEETING_MM
from stitchpath.model.line import Line
from stitchpath.route.graph import line_graph

Sewn: TypeAlias = tuple[Line, ...]
"""Lines that follow on one another, each in its direction."""


def with_starts(sewn: list[Sewn], edges: shapely.Geometry, start: Points) -> list[Sewn]:
    """Return walks in their order, the closed ones begun where it shows least.

    Args:
        sewn: The walks.
        edges: Edges and seams, where a start hides; may be empty.
        start: Where the needle is, shape (2,).
    """
    begun: list[Sewn] = []
    needle = start
    for index, lines in enumerate(sewn):
        following = sewn[index + 1][0].points[0] if index + 1 < len(sewn) else None
        begun.append(_begun(lines, edges, needle, following))
        needle = begun[-1][-1].points[-1]
    return begun


def _begun(lines: Sewn, edges: shapely.Geometry, needle: Points, then: Points | None) -> Sewn:
    is_closed = (lines[0].points[0] == lines[-1].points[-1]).all()
    if not is_closed or any(line.whole for line in lines):  # a triangle has its own order
        return lines
    if len(lines) > 1:
        places = np.array([line.points[0] for line in lines])
        first = _best(places, edges, needle, then)
        return lines[first:] + lines[:first]
    (line,) = lines
    along = _crossings_or_vertices(line)
    best = _best(points_at(line.points, along), edges, needle, then)
    return (_turned(line, float(along[best])),)


def _crossings_or_vertices(line: Line) -> np.ndarray:
    """Return how far along a closed line its own crossings lie; its vertices without any."""
    crossings = line_graph((line,)).along[0][1:-1]
    return crossings if len(crossings) else distances_along(line.points)[:-1]


def _best(places: Points, edges: shapely.Geometry, needle: Points, then: Points | None) -> int:
    """Return the place to begin at; the first of equals, so that nothing turns for nothing."""
    travel = np.hypot(*(places - needle).T)
    if then is not None:
        travel = travel + np.hypot(*(places - then).T)
    hidden = shapely.dwithin(edges, shapely.points(places), MEETING_MM)
    order = np.lexsort((np.round(travel / MEETING_MM), ~hidden))
    return int(order[0])


def _turned(line: Line, along: float) -> Line:
    """Return a closed line begun elsewhere on it."""
    length = float(distances_along(line.points)[-1])
    if along in {0.0, length}:
        return line
    after, before = cut_path(line.points, np.array([(along, length), (0.0, along)]))
    return replace(line, points=np.concatenate([after, before[1:]]), whole=())
