"""Where closed walks begin: where it shows least, and near the needle.

A closed walk may be sewn from any place on it. It begins on an edge or in a seam if it touches
one; else where it crosses itself; else on one of its vertices. Of such places the one is taken
that adds least travel. Walks that are not closed begin and end where they must.
"""

from dataclasses import replace

import numpy as np
import shapely

from stitchpath.geometry.paths import cut_path, distances_along, points_at
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import MEETING_MM
from stitchpath.model.line import Line
from stitchpath.route.graph import line_graph
from stitchpath.route.walk import Walk


def with_starts(walks: list[Walk], edges: shapely.Geometry, start: Points) -> list[Walk]:
    """Return walks in their order, the closed ones begun where it shows least.

    They keep the nodes that they have: a closed line may begin where no node is.

    Args:
        walks: The walks.
        edges: Edges and seams, where a start hides; may be empty.
        start: Where the needle is, shape (2,).
    """
    begun: list[Walk] = []
    needle = start
    for index, walk in enumerate(walks):
        following = walks[index + 1].ends[0] if index + 1 < len(walks) else None
        begun.append(_begun(walk, edges, needle, following))
        needle = begun[-1].ends[1]
    return begun


def _begun(walk: Walk, edges: shapely.Geometry, needle: Points, then: Points | None) -> Walk:
    lines, legs = walk.lines, walk.legs
    start, end = walk.places
    is_closed = start == end
    if not is_closed or any(line.whole for line in lines):  # a triangle has its own order
        return walk
    if len(lines) > 1:
        places = np.array([line.points[0] for line in lines])
        first = _best(places, edges, needle, then)
        return replace(
            walk, lines=lines[first:] + lines[:first], legs=legs[first:] + legs[:first]
        )
    (line,) = lines
    along = _crossings_or_vertices(line)
    best = _best(points_at(line.points, along), edges, needle, then)
    return replace(walk, lines=(_turned(line, float(along[best])),))


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
