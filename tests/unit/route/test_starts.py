"""Where closed walks begin."""

import numpy as np
import shapely

from stitchpath.model.line import Line
from stitchpath.route.graph import line_graph
from stitchpath.route.legs import whole_leg
from stitchpath.route.starts import with_starts
from stitchpath.route.walk import Walk
from tests.support.lines import assert_same_line, line

SQUARE = [(0, 0), (60, 0), (60, 60), (0, 60), (0, 0)]
NOWHERE = shapely.Point()


def _walk(*lines: Line) -> Walk:
    graph = line_graph(lines)
    legs = tuple(whole_leg(graph, index) for index in range(len(lines)))
    ends = legs[0].nodes[0], legs[-1].nodes[1]
    return Walk(lines=lines, legs=legs, sources=tuple(range(len(lines))), nodes=ends)


def test_a_ring_begins_on_the_vertex_nearest_to_the_needle() -> None:
    (walk,) = with_starts([_walk(line(SQUARE))], NOWHERE, np.array([70.0, 65.0]))
    assert_same_line(walk.lines[0].points, [(60, 60), (0, 60), (0, 0), (60, 0), (60, 60)])


def test_where_the_needle_goes_next_counts_as_well() -> None:
    ring, after = _walk(line(SQUARE)), _walk(line([(-30, 60), (-60, 60)]))
    begun, _ = with_starts([ring, after], NOWHERE, np.array([10.0, 40.0]))
    assert begun.ends[0].tolist() == [0, 60]


def test_a_ring_begins_on_an_edge_that_it_touches_even_if_that_is_further() -> None:
    edge = shapely.LineString([(0, 0), (0, -90)])
    (walk,) = with_starts([_walk(line(SQUARE))], edge, np.array([70.0, 65.0]))
    assert walk.ends[0].tolist() == [0, 0]


def test_a_closed_line_that_crosses_itself_begins_on_the_crossing() -> None:
    eight = line([(0, 0), (40, 40), (40, 0), (0, 40), (0, 0)])
    (walk,) = with_starts([_walk(eight)], NOWHERE, np.array([0.0, 0.0]))
    assert_same_line(walk.ends, [(20, 20), (20, 20)])
    assert (
        shapely.LineString(walk.lines[0].points).length
        == shapely.LineString(eight.points).length
    )


def test_a_closed_walk_of_several_lines_begins_where_two_of_them_meet() -> None:
    sides = tuple(line(SQUARE[index : index + 2]) for index in range(4))
    (walk,) = with_starts([_walk(*sides)], NOWHERE, np.array([99.0, -9.0]))
    assert walk.lines == sides[1:] + sides[:1]
    assert [leg.line for leg in walk.legs] == [1, 2, 3, 0]


def test_an_open_walk_keeps_its_start_and_so_does_a_triangle() -> None:
    way = _walk(line([(50, 0), (0, 0)]))
    triangle = _walk(line([(0, 20), (0, 0), (10, 0), (0, 20)], whole=((0, 3),)))
    assert with_starts([way, triangle], NOWHERE, np.zeros(2)) == [way, triangle]
