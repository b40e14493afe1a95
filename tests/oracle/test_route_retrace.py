"""What is sewn again, against an exact solution found in another way.

The Chinese postman's rule (J. Edmonds and E. L. Johnson, Matching, Euler tours and the Chinese
postman, 1973): sew again the cheapest set of ways that pairs odd places. Here a pair may also
be left to a thread cut. The oracle measures ways with networkx and chooses pairs by whole-
number programming (scipy's HiGHS), not by a matching.
"""

from collections import Counter
from itertools import combinations
from typing import Final

import networkx as nx
import numpy as np
import pytest
from scipy.optimize import Bounds, LinearConstraint, milp

from stitchpath.geometry.points import path_length
from stitchpath.model.line import Line
from stitchpath.route.costs import Costs
from stitchpath.route.graph import line_graph
from stitchpath.route.joins import find_joins
from stitchpath.route.legs import Leg
from stitchpath.route.retrace import legs_to_sew_again
from stitchpath.route.trails import find_trails
from tests.strategies import planar_graph
from tests.support.lines import line

GRAPHS: Final = 500
MOST_ODD: Final = 40
PER_MM: Final = 0.1  # 600 stitches of 2.5 mm a minute are 0.04 s a mm; 0.06 s penalty


def _costs(cut_seconds: float) -> Costs:
    return Costs(travel="retrace", cut_seconds=cut_seconds, penalty_per_mm=0.06, speed=600)


def _network(lines: tuple[Line, ...]) -> nx.MultiGraph:
    """Return lines that meet at their ends only."""
    network = nx.MultiGraph()
    for one in lines:
        start, end = (tuple(place) for place in one.points[[0, -1]].tolist())
        network.add_edge(start, end, weight=path_length(one.points) * PER_MM)
    return network


def _odd(network: nx.MultiGraph, part: set[object]) -> list[object]:
    return [place for place in part if network.degree(place) % 2]


def _least_seconds(network: nx.MultiGraph, cut_seconds: float) -> float:
    """Return the least that cuts and ways sewn again come to, part by part."""
    total = 0.0
    for part in nx.connected_components(network):
        odd = _odd(network, part)
        if len(odd) <= 2:
            total += cut_seconds
            continue
        ways = dict(nx.all_pairs_dijkstra_path_length(network.subgraph(part)))
        pairs = list(combinations(range(len(odd)), 2))
        seconds = np.array([ways[odd[one]][odd[other]] for one, other in pairs])
        in_pair = np.zeros((len(odd) + 1, len(pairs)))
        for column, pair in enumerate(pairs):
            in_pair[list(pair), column] = 1
        in_pair[-1] = 1
        most = np.append(np.ones(len(odd)), len(odd) / 2 - 1)  # one run is left in any case
        found = milp(
            seconds - cut_seconds,
            constraints=LinearConstraint(in_pair, ub=most),
            bounds=Bounds(0, 1),
            integrality=np.ones(len(pairs)),
        )
        total += cut_seconds * len(odd) / 2 + found.fun
    return total


def _seconds(
    network: nx.MultiGraph, legs: list[Leg], lines: tuple[Line, ...], cut: float
) -> float:
    """Return what the package's choice comes to, counted on a network with its legs."""
    doubled = network.copy()
    for leg in legs:
        start, end = (tuple(place) for place in lines[leg.line].points[[0, -1]].tolist())
        doubled.add_edge(start, end)
    runs = sum(
        max(1, len(_odd(doubled, part)) // 2) for part in nx.connected_components(doubled)
    )
    return cut * runs + sum(abs(leg.end - leg.start) for leg in legs) * PER_MM


@pytest.mark.slow
def test_cuts_and_ways_sewn_again_cost_as_little_as_they_can_on_500_graphs() -> None:
    chance = np.random.default_rng(1973)
    odd_places: list[int] = []
    while len(odd_places) < GRAPHS:
        lines = planar_graph(chance, most=int(chance.integers(3, 10)))
        network = _network(lines)
        odd = len(_odd(network, set(network)))
        if odd > MOST_ODD:
            continue
        odd_places.append(odd)
        cut = float(chance.choice([0.5, 1.0, 2.5, 6.0, 50.0]))
        graph = line_graph(lines)
        legs = legs_to_sew_again(graph, find_joins(graph, _costs(cut)), range(len(lines)))
        assert max(Counter((leg.line, leg.start) for leg in legs).values(), default=1) == 1
        least = _least_seconds(network, cut)
        assert _seconds(network, legs, lines, cut) == pytest.approx(least, abs=1e-4)
        runs = len(find_trails(graph, legs))
        again = sum(abs(leg.end - leg.start) for leg in legs) * PER_MM
        assert cut * runs + again == pytest.approx(least, abs=1e-4)
    assert max(odd_places) >= MOST_ODD - 4  # the hard ones are among them


def _cube() -> tuple[Line, ...]:
    """A cube's twelve edges, drawn flat as lines of one length: bent where they have to be."""
    around = [(0, 0), (10, 0), (10, 10), (0, 10)]
    inner = [(3, 3), (7, 3), (7, 7), (3, 7)]
    edges = [(ring[i - 1], ring[i]) for ring in (around, inner) for i in range(4)]
    return tuple(line(edge) for edge in [*edges, *zip(around, inner, strict=True)])


def _koenigsberg() -> tuple[Line, ...]:
    """Seven bridges between two banks, an island and the land between the rivers."""
    north, island, south, east = (0, 0), (0, 10), (0, 20), (10, 10)
    twice = [(north, (-4, 5), island), (island, (-4, 15), south)]
    once = [(north, island), (island, south), (north, east), (island, east), (south, east)]
    return tuple(line(bridge) for bridge in [*twice, *once])


@pytest.mark.parametrize(
    ("lines", "odd", "doubled"),
    [(_koenigsberg(), 4, 1), (_cube(), 8, 3)],
    ids=["bridges", "cube"],
)
def test_textbook_graphs_have_their_known_number_of_edges_sewn_again(
    lines: tuple[Line, ...], odd: int, doubled: int
) -> None:
    """A closed tour doubles half as many edges as there are odd places, an open one fewer."""
    network, graph = _network(lines), line_graph(lines)
    assert len(_odd(network, set(network))) == odd
    legs = legs_to_sew_again(graph, find_joins(graph, _costs(1000)), range(len(lines)))
    assert len(legs) == doubled
    assert len(find_trails(graph, legs)) == 1


def test_a_cut_is_left_where_going_back_costs_more() -> None:
    """A comb: 20 mm from tooth to tooth (2 s), 30 mm along a tooth (3 s).

    From three runs to two by going between the inner teeth's feet; to one by going back along
    both inner teeth instead, 4 s more.
    """
    comb = [line([(0, 0), (60, 0)]), *(line([(x, 0), (x, 30)]) for x in (0, 20, 40, 60))]
    graph = line_graph(tuple(comb))
    for cut, runs in ((4.01, 1), (3.99, 2), (2.01, 2), (1.99, 3)):
        joins = find_joins(graph, _costs(cut))
        legs = legs_to_sew_again(graph, joins, range(len(comb)))
        assert len(find_trails(graph, legs)) == runs, cut


def test_ends_of_other_lines_count_as_the_ends_that_are_left() -> None:
    """Only two hooks may be joined; the straight line's ends stay free in any case."""
    straight = line([(-50, 0), (50, 0)])
    hooks = [line([(-5, 0), (-5, 20)]), line([(5, 0), (5, 20)])]
    graph = line_graph((straight, *hooks))
    legs = legs_to_sew_again(graph, find_joins(graph, _costs(100)), [1, 2])
    assert len(find_trails(graph)) == 3
    assert len(find_trails(graph, legs)) == 1
