"""Fewest cuts and no loop closed round what is not sewn, against trying every order.

Loops are found here with shapely's polygonize, line by line; orders by trying them all.
"""

from itertools import pairwise, permutations, product
from typing import Final

import numpy as np
import pytest
import shapely

from stitchpath.geometry.points import Points
from stitchpath.layouts import layout_names
from stitchpath.model.line import Line, LineKind
from stitchpath.model.machine import Machine
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.pipeline import plan
from stitchpath.route.costs import Costs
from stitchpath.route.enclosure import inside_out
from stitchpath.route.graph import line_graph
from stitchpath.route.order import order_runs
from stitchpath.route.trails import find_trails
from stitchpath.route.walk import walk_of
from tests.strategies import planar_graph
from tests.support.lines import line

SIDE: Final = 200.0
COSTS: Final = Costs(travel="edge", cut_seconds=5.5, penalty_per_mm=0.06, speed=600)
REACH_MM: Final = 5.5 / 0.1  # 600 stitches of 2.5 mm a minute are 0.04 s a mm; 0.06 s penalty
RING: Final = line([(0, 0), (SIDE, 0), (SIDE, SIDE), (0, SIDE), (0, 0)], kind=LineKind.EDGE)


def _closed_in(sewn: list[Points]) -> int:
    """Return how many lines have a part inside what the lines before them close off."""
    count = 0
    for number, points in enumerate(sewn):
        before = shapely.union_all([shapely.LineString(each) for each in sewn[:number]])
        inside = shapely.union_all(
            shapely.get_parts(shapely.polygonize(shapely.get_parts(before)))
        )
        part = shapely.difference(shapely.LineString(points), before)
        count += int(shapely.length(shapely.intersection(part, inside)) > 0.01)
    return count


def _along(one: float, other: float) -> float:
    """Return the way along the edge between two places on it, the shorter way round."""
    way = abs(one - other)
    return min(way, 4 * SIDE - way)


def _joins(places: list[float], *, upright: bool) -> int:
    """Return the most joins of lines sewn to and fro, middle outwards, over all directions."""
    middle = SIDE / 2
    on_it = [place for place in places if place == middle]  # it goes with either side
    upper = sorted(place for place in places if place > middle)
    lower = sorted((place for place in places if place < middle), reverse=True)
    best = 0
    for order in (
        [*on_it, *upper, *lower],
        [*upper, *on_it, *lower],
        [*on_it, *lower, *upper],
        [*lower, *on_it, *upper],
    ):
        for turns in product((0, 1), repeat=len(order)):
            ends = [
                _on_edge(place, turn, upright=upright)
                for place, turn in zip(order, turns, strict=True)
            ]
            gaps = [_along(a[1], b[0]) for a, b in pairwise(ends)]
            best = max(best, sum(gap < REACH_MM for gap in gaps))
    return best


def _on_edge(place: float, turn: int, *, upright: bool) -> tuple[float, float]:
    """Return where on the edge a line begins and ends, measured clockwise from the corner."""
    near, far = (place, 3 * SIDE - place) if upright else (4 * SIDE - place, SIDE + place)
    return (far, near) if turn else (near, far)


@pytest.mark.parametrize("seed", range(40))
def test_crosshatch_on_an_edge_takes_the_fewest_runs_that_its_rules_allow(seed: int) -> None:
    """Rules: set after set, each from the middle outwards; only the last one is joined."""
    chance = np.random.default_rng(seed)
    grid = np.arange(20, 181, 10)
    upright, level = (
        sorted(chance.choice(grid, int(chance.integers(1, 6)), replace=False).tolist())
        for _ in range(2)
    )
    lines = [line([(x, 0), (x, SIDE)]) for x in upright]
    lines += [line([(0, y), (SIDE, y)]) for y in level]
    figures = order_runs((*lines, RING), COSTS, middle=(SIDE / 2, SIDE / 2)).figures
    joins = max(_joins(upright, upright=True), _joins(level, upright=False))
    assert figures.runs == len(lines) - joins
    assert figures.islands == 0


@pytest.mark.parametrize("closes_loops", [False, True])
@pytest.mark.parametrize("seed", range(8))
def test_lines_closed_in_are_counted_as_polygonize_finds_them(
    seed: int, closes_loops: bool
) -> None:
    chance = np.random.default_rng(seed)
    places = np.sort(chance.choice(np.arange(20, 181, 10), (2, 4)), axis=1)
    lines = [line([(x, 0), (x, SIDE)]) for x in np.unique(places[0])]
    lines += [line([(0, y), (SIDE, y)]) for y in np.unique(places[1])]
    costs = Costs(
        travel="edge",
        cut_seconds=5,
        penalty_per_mm=0.06,
        speed=600,
        closes_loops=closes_loops,
    )
    route = order_runs((*lines, RING), costs, middle=(SIDE / 2, SIDE / 2))
    sewn = [each.points for run in route.runs for each in run.lines]
    assert route.figures.islands == _closed_in(sewn)


@pytest.mark.parametrize("seed", range(25))
def test_nothing_is_closed_in_where_any_order_avoids_it(seed: int) -> None:
    """Up to five walks of a planar graph, and what is sewn before, in every order."""
    chance = np.random.default_rng(seed)
    lines = planar_graph(chance, most=4)
    graph = line_graph(lines)
    walks = [walk_of(graph, trail) for trail in find_trails(graph)]
    chance.shuffle(walks)
    before, own = walks[5:6], walks[:5]

    def closed(order: tuple[int, ...]) -> int:
        return _closed_in([_whole(each.lines) for each in [*before, *(own[n] for n in order)]])

    given = _closed_in([_whole(each.lines) for each in before])
    least = min(closed(order) for order in permutations(range(len(own)))) - given
    found = inside_out(before, own, start=np.array([500.0, 500.0]))
    mine = closed(tuple(walk for walk, _ in found)) - given
    assert (mine == 0) == (least == 0)
    assert sorted(walk for walk, _ in found) == list(range(len(own)))


def _whole(lines: tuple[Line, ...]) -> Points:
    return np.concatenate([each.points for each in lines])


WEAVES: Final = {"orange-peel", "terry-twist", "wineglass"}
"""Layouts whose lines weave through one another, so that petals close whatever comes first."""


@pytest.mark.parametrize("name", sorted({*layout_names()} - {"motif", "text", *WEAVES}))
def test_no_layout_closes_lines_in_nor_takes_more_runs_than_sewn_once(name: str) -> None:
    quilt = Quilt(
        width=360, length=420, edge_stitch=8, quilting=(Quilting(layout=name, spacing=52),)
    )
    project = Project(quilt=quilt, machine=Machine(field=(800, 800)))
    route = plan(project).stages[0].route
    assert route.islands == 0
    assert route.runs <= route.least_runs
