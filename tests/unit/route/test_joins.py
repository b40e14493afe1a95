"""Ways over what is sewn anyway."""

import pytest
import shapely

from stitchpath.model.line import LineKind
from stitchpath.route.costs import Costs
from stitchpath.route.graph import LineGraph, line_graph
from stitchpath.route.joins import Joins, find_joins
from tests.support.lines import line

EDGE = line([(0, 0), (100, 0)], kind=LineKind.EDGE, stitch_mm=2.5)
LINES = (EDGE, *(line([(x, 0), (x, 50)]) for x in (20, 50, 90)))
COSTS = Costs(travel="edge", cut_seconds=5, penalty_per_mm=0.06, speed=600)  # 0.1 s a mm


def _node(graph: LineGraph, x: float, y: float) -> int:
    (node,) = [i for i, place in enumerate(graph.places.tolist()) if place == [x, y]]
    return node


def _joins(costs: Costs, barriers: shapely.Geometry | None = None) -> tuple[LineGraph, Joins]:
    graph = line_graph(LINES)
    return graph, find_joins(graph, costs, barriers)


def test_the_way_along_the_edge_costs_its_length() -> None:
    graph, joins = _joins(COSTS)
    start, end = _node(graph, 20, 0), _node(graph, 50, 0)
    assert joins.seconds(start, end) == pytest.approx(3.0)
    (leg,) = joins.legs(start, end)
    assert (leg.line, leg.start, leg.end, leg.again) == (0, 20, 50, True)


def test_a_way_back_is_the_same_way_turned_round() -> None:
    graph, joins = _joins(COSTS)
    (leg,) = joins.legs(_there(joins, graph), _node(graph, 20, 0))
    assert (leg.start, leg.end) == (50, 20)


def _there(joins: Joins, graph: LineGraph) -> int:
    there = _node(graph, 50, 0)
    assert joins.seconds(there, _node(graph, 20, 0)) == pytest.approx(3.0)
    return there


def test_a_way_that_costs_as_much_as_a_cut_is_none() -> None:
    graph, joins = _joins(COSTS)
    assert joins.seconds(_node(graph, 0, 0), _node(graph, 50, 0)) is None


def test_no_way_leads_over_quilting_lines_unless_all_may_be_sewn_again() -> None:
    graph, joins = _joins(COSTS)
    top, foot = _node(graph, 20, 50), _node(graph, 20, 0)
    assert joins.seconds(top, foot) is None
    costs = Costs(travel="retrace", cut_seconds=9, penalty_per_mm=0.06, speed=600)
    graph, joins = _joins(costs)
    assert joins.seconds(top, foot) == pytest.approx(5.0)
    assert [leg.line for leg in joins.legs(top, _node(graph, 50, 0))] == [1, 0]


def test_no_way_costs_nothing_where_needle_and_start_are_one() -> None:
    graph, joins = _joins(COSTS)
    node = _node(graph, 20, 50)
    assert joins.seconds(node, node) == 0
    assert joins.legs(node, node) == []


def test_everything_nearer_than_a_cut_is_found_even_after_a_search_stopped_early() -> None:
    graph, joins = _joins(COSTS)
    start = _node(graph, 50, 0)
    assert joins.seconds(start, _node(graph, 20, 0)) == pytest.approx(3.0)
    found = {
        tuple(graph.places[node].tolist()): cost
        for node, cost in joins.from_node(start).items()
    }
    assert found == {(50, 0): 0, (20, 0): pytest.approx(3), (90, 0): pytest.approx(4)}


def test_no_way_leads_over_a_barrier() -> None:
    graph, joins = _joins(COSTS, shapely.box(30, -5, 40, 5))
    assert joins.seconds(_node(graph, 20, 0), _node(graph, 50, 0)) is None
    assert joins.seconds(_node(graph, 50, 0), _node(graph, 90, 0)) == pytest.approx(4.0)


@pytest.mark.parametrize(("beside", "joined"), [(0.0, True), (0.1, False), (0.2, True)])
def test_no_way_goes_round_a_corner_just_beside_a_node(beside: float, *, joined: bool) -> None:
    """Both ends of so short a piece may round to one place in a file."""
    bent = line([(0, 0), (50, 0), (50, 50)], kind=LineKind.EDGE, stitch_mm=2.5)
    feet = [(30.0, 0.0), (50.0, beside)]
    graph = line_graph((bent, *(line([foot, (foot[0] + 40, 90)]) for foot in feet)))
    joins = find_joins(graph, COSTS)
    found = joins.seconds(*(_node(graph, *foot) for foot in feet))
    assert (found is not None) is joined
