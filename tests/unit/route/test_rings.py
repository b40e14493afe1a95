"""A closed edge line goes on from the walk that is sewn last."""

import numpy as np

from stitchpath.model.line import Line, LineKind
from stitchpath.route.graph import LineGraph, line_graph
from stitchpath.route.rings import find_ring, ring_from
from stitchpath.route.trails import find_trails
from stitchpath.route.walk import Walk, walk_of
from tests.support.lines import assert_same_line, line

CORNERS = [(0, 0), (90, 0), (90, 90), (0, 90), (0, 0)]
RING = line(CORNERS, kind=LineKind.EDGE)


def _after(other: Line, *, reverse: bool = False) -> Walk | None:
    graph = line_graph((other, RING))
    (trail,) = find_trails(graph, without=(1,))
    walk = walk_of(graph, trail)
    return ring_from(graph, 1, walk.reversed if reverse else walk)


def _found(*lines: Line) -> int | None:
    graph: LineGraph = line_graph(lines)
    return find_ring(graph)


def test_a_ring_begins_and_ends_where_the_last_walk_ends() -> None:
    ring = _after(line([(40, 90), (40, 0)]))
    assert ring is not None
    assert ring.nodes[0] == ring.nodes[1]
    points = np.concatenate([one.points for one in ring.lines])
    assert_same_line(points[[0, -1]], [(40, 0), (40, 0)])
    assert sum(len(one.points) - 1 for one in ring.lines) == 5


def test_it_goes_the_way_that_turns_least() -> None:
    """A line that slants to the right goes on to the right, one to the left to the left."""
    for start, corner in (((10, 45), (90, 0)), ((80, 45), (0, 0))):
        ring = _after(line([start, (45, 0)]))
        assert ring is not None
        assert_same_line(ring.lines[0].points[1], corner)


def test_a_ring_that_begins_there_already_stays_whole() -> None:
    ring = _after(line([(45, 45), (0, 0)]))
    assert ring is not None
    (whole,) = ring.lines
    assert {tuple(place) for place in whole.points.tolist()} == set(map(tuple, CORNERS))


def test_a_walk_that_ends_elsewhere_leaves_the_ring_to_itself() -> None:
    assert _after(line([(40, 0), (40, 45)])) is None
    assert _after(line([(40, 0), (40, 45)]), reverse=True) is not None


def test_only_one_closed_edge_line_among_others_is_a_ring() -> None:
    other = line([(40, 0), (40, 45)])
    assert _found(other, RING) == 1
    assert _found(RING) is None
    assert _found(other, RING, RING) is None
    assert _found(other, line(CORNERS)) is None
    assert _found(other, line(CORNERS[:-1], kind=LineKind.EDGE)) is None
