"""Lines as a graph: nodes where lines end, meet and cross."""

import numpy as np
import pytest

from stitchpath.geometry.nodes import cells_of
from stitchpath.route.graph import LineGraph, line_graph
from tests.support.lines import line

SQUARE = [(0, 0), (10, 0), (10, 10), (0, 10), (0, 0)]


def _along(graph: LineGraph) -> list[list[float]]:
    return [np.round(along, 6).tolist() for along in graph.along]


def test_lines_that_cross_share_a_node_between_their_ends() -> None:
    graph = line_graph((line([(0, 5), (10, 5)]), line([(4, 0), (4, 20)])))
    assert _along(graph) == [[0, 4, 10], [0, 5, 20]]
    assert graph.nodes[0][1] == graph.nodes[1][1]
    assert len(graph.places) == 5


def test_a_line_that_ends_on_another_makes_a_node_there() -> None:
    graph = line_graph((line([(0, 0), (10, 0)]), line([(3, 0), (3, 8)])))
    assert _along(graph) == [[0, 3, 10], [0, 8]]
    assert graph.nodes[0][1] == graph.nodes[1][0]


def test_shared_ends_are_one_node() -> None:
    graph = line_graph((line([(0, 0), (10, 0)]), line([(10, 0), (10, 8)])))
    assert len(graph.places) == 3
    assert graph.least_runs == 1


def test_a_closed_line_begins_and_ends_on_one_node() -> None:
    graph = line_graph((line(SQUARE),))
    assert graph.nodes[0].tolist() == [0, 0]
    assert graph.least_runs == 1


def test_a_line_that_crosses_itself_passes_its_node_twice() -> None:
    graph = line_graph((line([(0, 0), (10, 10), (10, 0), (0, 10)]),))
    assert len(graph.places) == 3
    assert graph.nodes[0][1] == graph.nodes[0][2]


def test_lines_along_one_another_have_nodes_at_the_ends_of_what_they_share() -> None:
    graph = line_graph((line([(0, 0), (10, 0)]), line([(4, 0), (15, 0)])))
    assert _along(graph) == [[0, 4, 10], [0, 6, 11]]
    assert graph.parts.tolist() == [0, 0, 0, 0]


def test_a_vertex_on_a_vertex_is_a_meeting() -> None:
    graph = line_graph((line([(0, 0), (5, 5), (10, 0)]), line([(0, 10), (5, 5), (10, 10)])))
    assert len(graph.places) == 5
    assert len(set(graph.parts.tolist())) == 1


def test_vertices_on_one_another_change_nothing() -> None:
    graph = line_graph((line([(0, 5), (5, 5), (5, 5), (10, 5)]), line([(5, 0), (5, 10)])))
    assert _along(graph) == [[0, 5, 10], [0, 5, 10]]


def test_lines_apart_are_different_parts() -> None:
    graph = line_graph(
        (line([(0, 0), (10, 0)]), line([(0, 1), (10, 1)]), line([(5, 1), (5, 9)]))
    )
    assert len(set(graph.parts.tolist())) == 2
    assert graph.least_runs == 3


@pytest.mark.parametrize("blur", [1e-9, 1e-6, 4e-4])
@pytest.mark.parametrize("shift", np.linspace(0, 1e-3, 9))
def test_ends_that_are_blurred_meet_wherever_the_grid_lies(blur: float, shift: float) -> None:
    """However close to the border of a cell; a cell is a thousandth of a mm wide."""
    x = 7.0 + shift
    graph = line_graph((line([(0, 0), (x, 3)]), line([(x + blur, 3 - blur), (20, 9)])))
    assert len(graph.places) == 3
    assert graph.least_runs == 1


def test_halves_and_quarters_of_sixteenths_lie_off_the_borders_of_cells() -> None:
    places = np.arange(2000)[:, None] * 25.4 / 64 * np.ones(2)
    around = [cells_of(places + step) for step in (-1e-6, 1e-6)]
    assert (around[0] == around[1]).all()


def test_lines_that_run_along_one_another_share_their_stretches() -> None:
    """0 to 4, 4 to 10 and 10 to 15: the middle one is of both lines."""
    graph = line_graph((line([(0, 0), (10, 0)]), line([(4, 0), (15, 0)])))
    parts = np.array([[0, 0, 10], [1, 0, 11], [0, 4, 10]]).T
    stretches, counts = graph.stretches(*parts)
    first, middle, shared, last, again = stretches.tolist()
    assert counts.tolist() == [2, 2, 1]
    assert (shared, len({first, middle, last})) == (middle, 3)
    assert again == middle
    assert len(graph.sides) == 3


def test_a_line_that_ends_a_hair_off_its_node_is_not_exact() -> None:
    graph = line_graph((line([(0, 0), (9, 0)]), line([(9 + 4e-7, 3e-7), (9, 9)])))
    assert graph.is_exact == [True, False]
