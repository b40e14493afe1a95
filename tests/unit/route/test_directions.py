"""The cheapest directions of walks in a fixed order, against trying them all."""

from itertools import product
from math import dist, inf

import numpy as np
import pytest
import shapely

from stitchpath.model.line import Line, LineKind
from stitchpath.route.costs import Costs
from stitchpath.route.directions import (
    TRAVEL_SECONDS_PER_MM,
    Choice,
    Turned,
    Ways,
    cheapest,
    onward,
    passages,
    standing,
    traced,
)
from stitchpath.route.graph import line_graph
from stitchpath.route.joins import find_joins
from stitchpath.route.trails import find_trails
from stitchpath.route.walk import Walk, walk_of
from tests.support.lines import line

COSTS = Costs(travel="edge", cut_seconds=5, penalty_per_mm=0.06, speed=600)
EDGE = line([(0, 0), (200, 0)], kind=LineKind.EDGE)


def _scene(lines: list[Line]) -> tuple[list[Walk], Ways]:
    graph = line_graph((*lines, EDGE))
    walks = [walk_of(graph, trail) for trail in find_trails(graph)]
    own = [walk for walk in walks if EDGE.kind not in {one.kind for one in walk.lines}]
    return own, Ways(joins=find_joins(graph, COSTS))


def _directed(
    walks: list[Walk], turns: list[tuple[bool, ...]], ways: Ways, needle: Choice
) -> tuple[float, list[Turned]]:
    both = [passages(walk, turn) for walk, turn in zip(walks, turns, strict=True)]
    best = cheapest(onward([needle], both, ways))
    return best.seconds, traced(best)


def _cost(walks: list[Walk], ways: Ways, needle: Choice, turns: tuple[bool, ...]) -> float:
    """What a choice of directions costs, by its words: a join, else a hop, else a cut."""
    sewn = [walk.reversed if turn else walk for walk, turn in zip(walks, turns, strict=True)]
    places = [(needle.passage.nodes[1], needle.passage.end)]
    places += [(walk.nodes[1], tuple(walk.ends[1])) for walk in sewn]
    total = 0.0
    for (node, place), walk in zip(places, sewn, strict=False):
        join = ways.joins.seconds(node, walk.nodes[0])
        way = dist(place, walk.ends[0])
        hop = way * TRAVEL_SECONDS_PER_MM + (0 if way <= 6 else COSTS.cut_seconds)
        total += hop if join is None else join
    return total


@pytest.mark.parametrize("seed", range(30))
def test_directions_are_the_best_of_all(seed: int) -> None:
    chance = np.random.default_rng(seed)
    count = int(chance.integers(1, 7))
    lines = []
    for x in np.sort(chance.choice(np.arange(5, 195, 5), size=count, replace=False)):
        foot = chance.choice([0.0, 0.0, 4.0])
        lines.append(line([(x, foot), (x + chance.uniform(-3, 3), chance.uniform(20, 60))]))
    walks, ways = _scene(lines)
    turns: list[tuple[bool, ...]] = [
        ((False, True), (False,), (True,))[chance.choice(3, p=[0.8, 0.1, 0.1])] for _ in walks
    ]
    needle = standing((100.0, 30.0))
    seconds, sewn = _directed(walks, turns, ways, needle)
    best = min((_cost(walks, ways, needle, choice) for choice in product(*turns)), default=inf)
    assert seconds == pytest.approx(best)
    taken = tuple(each.turned for each in sewn)
    assert _cost(walks, ways, needle, taken) == pytest.approx(best)
    assert [each.walk.sources for each in sewn] == [walk.sources for walk in walks]


def test_channels_on_an_edge_go_to_and_fro_and_are_joined_there() -> None:
    walks, ways = _scene([line([(x, 0), (x, 80)]) for x in (10, 30, 50, 70)])
    _, sewn = _directed(walks, [(False, True)] * 4, ways, standing((10.0, 80.0)))
    assert [(each.turned, each.joined) for each in sewn] == [
        (True, False), (False, True), (True, False), (False, True),
    ]  # fmt: skip


def test_the_first_walk_may_be_joined_to_where_the_needle_stands() -> None:
    walks, ways = _scene([line([(30, 0), (30, 80)]), line([(50, 0), (50, 80)])])
    stands = standing((50.0, 0.0), walks[1].nodes[0])
    seconds, sewn = _directed(walks[:1], [(False, True)], ways, stands)
    assert sewn[0].joined
    assert seconds == pytest.approx(20 * 0.1)
    nowhere = standing((50.0, 0.0))
    assert not _directed(walks[:1], [(False, True)], ways, nowhere)[1][0].joined


def test_without_joins_a_short_hop_still_saves_the_cut() -> None:
    walks, ways = _scene([line([(10, 0), (10, 80)]), line([(14, 0), (14, 80)])])
    seconds, sewn = _directed(
        walks, [(False, True)] * 2, ways.without_joins(), standing((10.0, 80.0))
    )
    assert seconds == pytest.approx(4 * TRAVEL_SECONDS_PER_MM)
    assert not any(each.joined for each in sewn)


def test_a_hop_over_a_barrier_costs_a_cut() -> None:
    walks, ways = _scene([line([(10, 5), (10, 80)]), line([(14, 5), (14, 80)])])
    barred = Ways(joins=ways.joins, barriers=shapely.box(11, -9, 12, 99))
    seconds, _ = _directed(walks, [(False, True)] * 2, barred, standing((10.0, 80.0)))
    assert seconds > COSTS.cut_seconds
