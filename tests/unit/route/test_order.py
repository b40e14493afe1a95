"""The order of a hooping's lines, their directions, and where the thread is cut."""

from dataclasses import replace
from itertools import pairwise
from typing import Final

import numpy as np
import pytest
import shapely

from stitchpath.layouts import lay_lines
from stitchpath.model.line import Line, LineKind
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.route import Route
from stitchpath.pieces import make_tasks
from stitchpath.route.costs import Costs
from stitchpath.route.hops import UNCUT_TRAVEL_MM
from stitchpath.route.order import order_runs
from tests.strategies import planar_graph
from tests.support.lines import assert_same_line, line

MIDDLE: Final = (45.0, 45.0)
CUT: Final = Costs(travel="cut")
EDGE: Final = Costs(travel="edge", cut_seconds=5, penalty_per_mm=0.06, speed=600)
RETRACE: Final = Costs(travel="retrace", cut_seconds=5, penalty_per_mm=0.06, speed=600)
RING: Final = line([(0, 0), (90, 0), (90, 90), (0, 90), (0, 0)], kind=LineKind.EDGE)


def _order(route: Route) -> list[Line]:
    return [one for run in route.runs for one in run.lines]


def _starts(route: Route) -> list[list[float]]:
    return [one.points[0].tolist() for one in _order(route)]


def _upright(*places: float, top: float = 0, foot: float = 90) -> list[Line]:
    return [line([(x, top), (x, foot)]) for x in places]


def _level(*places: float) -> list[Line]:
    return [line([(0, y), (90, y)]) for y in places]


def _grid_of_seed(seed: int) -> tuple[Line, ...]:
    """Return a grid of short lines of which some are missing."""
    chance = np.random.default_rng(seed)
    return planar_graph(chance, most=int(chance.integers(3, 9)))


# What comes first -----------------------------------------------------------------------------


def test_anchors_come_first_in_the_order_given() -> None:
    lines = (
        *_upright(0),
        line([(50, 0), (50, 100)], anchor=True),
        line([(0, 50), (100, 50)], anchor=True),
    )
    ordered = _order(order_runs(lines, CUT, middle=MIDDLE))
    assert [one.anchor for one in ordered] == [True, True, False]
    assert np.ptp(ordered[0].points[:, 0]) == 0


def test_an_anchor_begins_at_the_end_nearer_to_the_needle() -> None:
    lines = (
        line([(50, 0), (50, 100)], anchor=True),
        line([(0, 90), (60, 90)], anchor=True),
    )
    assert _starts(order_runs(lines, CUT, middle=(50, 0))) == [[50, 0], [60, 90]]


def test_kinds_follow_in_their_order_whatever_is_nearer() -> None:
    kinds = [LineKind.SEAM, LineKind.EDGE, LineKind.QUILTING, LineKind.MOUTH]
    lines = tuple(line([(x, 0), (x, 1)], kind=kind) for x, kind in enumerate(kinds))
    ordered = [one.kind for one in _order(order_runs(lines, CUT, middle=MIDDLE))]
    assert ordered == [LineKind.QUILTING, LineKind.MOUTH, LineKind.EDGE, LineKind.SEAM]


def test_sets_follow_one_after_the_other_each_from_the_middle_out() -> None:
    lines = tuple(_upright(15, 30, 45, 60, 75) + _level(15, 30, 45, 60, 75))
    ordered = _order(order_runs(lines, CUT, middle=MIDDLE))
    assert [one.points[0, 0] for one in ordered[:5]] in (
        [45, 60, 75, 30, 15],
        [45, 30, 15, 60, 75],
        [30, 15, 45, 60, 75],
        [60, 75, 45, 30, 15],
    )
    assert {float(np.ptp(one.points[:, 1])) for one in ordered[5:]} == {0.0}
    assert [one.points[0, 1] for one in ordered[5:]] in (
        [45, 60, 75, 30, 15],
        [45, 30, 15, 60, 75],
        [30, 15, 45, 60, 75],
        [60, 75, 45, 30, 15],
    )


# Directions -----------------------------------------------------------------------------------


def test_parallel_lines_are_sewn_back_and_forth() -> None:
    lines = tuple(_upright(45, 65, 85))
    assert _starts(order_runs(lines, CUT, middle=(45, 0))) == [[45, 0], [65, 90], [85, 0]]


def test_parallel_lines_are_sewn_one_way_where_that_is_asked_for() -> None:
    lines = (*_upright(45, 85), line([(65, 90), (65, 0)]))
    route = order_runs(lines, Costs(travel="cut", same_direction=True), middle=(45, 0))
    assert _starts(route) == [[45, 0], [65, 0], [85, 0]]


def test_lines_that_a_block_interrupts_are_sewn_along_and_the_next_ones_back() -> None:
    parts = [
        line([(x, y), (x + 30, y)]) for y in (45, 60, 75) for x in (0, 60)
    ]  # a block from 30 to 60
    route = order_runs(tuple(parts), CUT, middle=(0, 45))
    assert _starts(route) == [[0, 45], [60, 45], [90, 60], [30, 60], [0, 75], [60, 75]]


def test_a_reversed_line_keeps_what_must_stay_whole() -> None:
    seam = line([(90, 0), (50, 0), (50, 9), (0, 9)], kind=LineKind.SEAM, whole=((0, 2),))
    first = line([(0, 0), (0, 8)])
    turned = _order(order_runs((first, seam), CUT, middle=(0, 0)))[1]
    assert_same_line(turned.points, seam.points[::-1])
    assert turned.whole == ((1, 3),)


# Runs -----------------------------------------------------------------------------------------


def test_lines_that_meet_are_one_run() -> None:
    lines = (line([(0, 0), (0, 50)]), line([(0, 50), (50, 50)]))
    route = order_runs(lines, CUT, middle=MIDDLE)
    assert [len(run.lines) for run in route.runs] == [2]
    assert (route.figures.runs, route.figures.least_runs) == (1, 1)


def test_a_short_way_leaves_the_thread_uncut_and_a_longer_one_cuts_it() -> None:
    near = (line([(0, 0), (0, 50)]), line([(UNCUT_TRAVEL_MM, 50), (99, 50)]))
    route = order_runs(near, CUT, middle=(0, 0))
    assert len(route.runs) == 1
    assert route.figures.least_runs == 2
    assert route.figures.travel_mm == UNCUT_TRAVEL_MM
    far = (line([(0, 0), (0, 50)]), line([(UNCUT_TRAVEL_MM + 0.01, 50), (99, 50)]))
    assert len(order_runs(far, CUT, middle=(0, 0)).runs) == 2


def test_a_short_way_over_a_barrier_cuts_the_thread() -> None:
    near = (line([(0, 0), (0, 50)]), line([(UNCUT_TRAVEL_MM, 50), (99, 50)]))
    post = shapely.box(2, 45, 3, 55)
    assert len(order_runs(near, CUT, middle=(0, 0), barriers=post).runs) == 2


def test_a_ring_in_two_parts_is_sewn_as_one() -> None:
    """A closed edge line of which a border cut off the middle."""
    first = line([(0, 100), (0, 50)], kind=LineKind.EDGE)
    last = line([(60, 100), (0, 100)], kind=LineKind.EDGE)
    (run,) = order_runs((last, first), CUT, middle=MIDDLE).runs
    ways = [one.points for one in run.lines]
    assert all(np.array_equal(before[-1], after[0]) for before, after in pairwise(ways))


def test_a_ring_that_meets_nothing_begins_on_the_edge_of_the_piece() -> None:
    ring = line([(30, 30), (60, 30), (60, 60), (30, 60), (30, 30)])
    edges = shapely.LineString([(60, 60), (99, 60)])
    route = order_runs((ring,), CUT, middle=(0, 0), edges=edges)
    assert _starts(route) == [[60, 60]]


def test_the_edge_line_goes_with_the_outermost_line_and_is_sewn_after_it() -> None:
    lines = (*_level(15, 30, 45, 60, 75), RING)
    route = order_runs(lines, CUT, middle=(45, 45))
    *_, last = route.runs
    assert last.lines[0].points[0, 1] in {15, 75}
    assert [one.kind for one in last.lines] == [
        LineKind.QUILTING,
        *[LineKind.EDGE] * (len(last.lines) - 1),
    ]
    assert route.figures.islands == 0


# Going on without a cut -----------------------------------------------------------------------


def test_channels_that_end_on_an_edge_line_are_one_run() -> None:
    lines = (*_level(15, 30, 45, 60, 75), RING)
    route = order_runs(lines, EDGE, middle=(45, 15))  # all on one side of the middle
    assert route.figures.runs == 1
    assert route.figures.least_runs == 5
    assert route.figures.retraced_mm == pytest.approx(4 * 15)


def test_the_same_channels_are_cut_where_that_is_asked_for() -> None:
    lines = (*_level(15, 30, 45, 60, 75), RING)
    route = order_runs(lines, CUT, middle=(45, 15))
    assert route.figures.runs == route.figures.least_runs == 5
    assert route.figures.retraced_mm == 0


def test_no_join_leads_over_a_barrier() -> None:
    lines = (*_level(15, 30, 45, 60, 75), RING)
    sides = shapely.union_all([shapely.box(x, 36, x + 2, 39) for x in (-1, 89)])
    route = order_runs(lines, EDGE, middle=(45, 15), barriers=sides)
    assert route.figures.runs == 2


def test_lines_that_another_set_will_cross_are_not_joined() -> None:
    lines = (*_upright(15, 30, 45, 60, 75), *_level(15, 30, 45, 60, 75), RING)
    route = order_runs(lines, EDGE, middle=(45, 45))
    first = [run for run in route.runs if np.ptp(run.lines[0].points[:, 0]) == 0]
    assert all(len(run.lines) == 1 for run in first)
    assert route.figures.islands == 0
    assert route.figures.retraced_mm > 0


def test_the_set_of_more_lines_is_sewn_last_since_that_is_the_one_joined() -> None:
    """Seven upright lines and three level ones: joining the seven saves more cuts."""
    lines = (*_upright(*range(15, 90, 10)), *_level(15, 45, 75), RING)
    ordered = _order(order_runs(lines, EDGE, middle=MIDDLE))
    assert [float(np.ptp(one.points[:, 1])) for one in ordered[:3]] == [0.0] * 3
    kept = _order(order_runs(lines, CUT, middle=MIDDLE))
    assert [float(np.ptp(one.points[:, 0])) for one in kept[:8]] == [0.0] * 8


def test_lines_of_a_set_that_nothing_crosses_are_joined_beside_others_that_are_crossed() -> (
    None
):
    """Level lines: upright ones cross the upper three only."""
    crossed, free = _level(5, 15, 25), _level(60, 70, 80)
    block = _upright(*range(10, 90, 10), foot=30)
    route = order_runs((*crossed, *free, *block, RING), EDGE, middle=(45, 0))
    heights = [
        {
            float(one.points[0, 1])
            for one in run.lines
            if one.kind is LineKind.QUILTING and np.ptp(one.points[:, 1]) == 0
        }
        for run in route.runs
    ]
    assert {60, 70, 80} in heights
    assert all({each} in heights for each in (5, 15, 25))
    assert route.figures.islands == 0


def test_loops_are_closed_where_that_is_asked_for_and_lines_in_them_are_told() -> None:
    lines = (*_upright(15, 30, 45, 60, 75), *_level(15, 30, 45, 60, 75), RING)
    kept = order_runs(lines, EDGE, middle=MIDDLE).figures
    closed = order_runs(lines, replace(EDGE, closes_loops=True), middle=MIDDLE).figures
    assert (kept.islands, closed.open_cuts) == (0, 0)
    assert closed.islands > 0
    assert kept.runs - closed.runs == kept.open_cuts > 0


def test_lines_of_one_run_may_close_one_another_in() -> None:
    ring, inner = line(RING.points), line([(0, 0), (40, 40)])
    route = order_runs((ring, inner), CUT, middle=MIDDLE)
    (run,) = route.runs
    assert route.figures.islands == (len(run.lines[0].points) > 2)


def test_rings_within_rings_are_sewn_from_the_inside_out() -> None:
    """Least travel from the needle's place would begin with the outermost."""
    rings = [line([(-r, -r), (r, -r), (r, r), (-r, r), (-r, -r)]) for r in (80, 60, 40, 20)]
    route = order_runs(tuple(rings), CUT, middle=(90, 90))
    assert [float(one.points.max()) for one in _order(route)] == [20, 40, 60, 80]
    assert route.figures.islands == 0


def test_joins_are_given_up_where_they_close_lines_in() -> None:
    """One run that closes two lines in, or two runs that close in none."""
    lines = _grid_of_seed(121)
    given_up, closed = (
        order_runs(
            lines, replace(RETRACE, cut_seconds=20, closes_loops=closes), middle=(0, 0)
        ).figures
        for closes in (False, True)
    )
    assert (closed.runs, closed.islands) == (1, 2)
    assert (given_up.runs, given_up.islands, given_up.open_cuts) == (2, 0, 1)
    assert given_up.retraced_mm == 0


@pytest.mark.parametrize("seed", [8, 140])
def test_sets_are_given_up_where_they_close_lines_in(seed: int) -> None:
    """Short lines that happen to run the same way but lie in one another's loops."""
    lines = _grid_of_seed(seed)
    given_up, closed = (
        order_runs(lines, replace(EDGE, closes_loops=closes), middle=(0, 0)).figures
        for closes in (False, True)
    )
    assert given_up.islands == 0 < closed.islands
    assert given_up.runs == given_up.least_runs


def test_a_closed_line_that_meets_only_the_edge_line_is_let_into_it() -> None:
    """A diamond that hangs on the edge, and channels that end on it."""
    diamond = line([(45, 0), (60, 20), (45, 40), (30, 20), (45, 0)])
    lines = (*_level(60, 75), diamond, RING)
    route = order_runs(lines, EDGE, middle=MIDDLE)
    assert route.figures.runs <= route.figures.least_runs == 2
    assert order_runs((diamond, RING), EDGE, middle=MIDDLE).figures.runs == 1


def test_single_ways_are_sewn_again_where_all_of_them_would_close_lines_in() -> None:
    """Between the fewest runs and none sewn again there is something."""
    quilting = Quilting(layout="baptist-fan", spacing=47)
    (task,) = make_tasks(
        Project(quilt=Quilt(width=500, length=640, edge_stitch=8, quilting=(quilting,)))
    )
    lines = lay_lines(task).lines
    kept, closed = (
        order_runs(lines, replace(EDGE, closes_loops=closes), middle=task.piece.centre).figures
        for closes in (False, True)
    )
    assert kept.islands == 0 < closed.islands
    assert closed.runs < kept.runs < kept.least_runs
    assert kept.open_cuts == kept.runs - closed.runs
    assert kept.retraced_mm > 0


def test_no_stretch_is_sewn_a_third_time() -> None:
    """Same direction: every join would lead along the whole edge, again and again."""
    lines = (*_level(15, 20, 25, 30), RING)
    costs = Costs(
        travel="edge", cut_seconds=500, penalty_per_mm=0.01, speed=600, same_direction=True
    )
    route = order_runs(lines, costs, middle=(45, 15))
    again = [one for one in _order(route) if one.again]
    drawn = shapely.union_all([shapely.LineString(one.points) for one in again])
    assert drawn.length == pytest.approx(route.figures.retraced_mm)


def test_ends_of_wild_lines_are_joined_over_what_is_sewn() -> None:
    """Two hooks on a ring: from the end of one along the ring to the other."""
    bent = [
        line([(0, 40), (-30, 40), (-30, 20), (-10, 20)]),
        line([(0, 50), (-40, 50), (-40, 90), (-10, 90)]),
    ]
    ring = line(RING.points)
    assert order_runs((*bent, ring), CUT, middle=MIDDLE).figures.runs == 2
    route = order_runs((*bent, ring), RETRACE, middle=MIDDLE)
    assert route.figures.runs == 1
    assert route.figures.retraced_mm == pytest.approx(10)


# Figures --------------------------------------------------------------------------------------


def test_figures_add_up() -> None:
    one = order_runs((*_level(15, 30), RING), EDGE, middle=MIDDLE).figures
    both = one + one
    assert both.runs == 2 * one.runs
    assert both.travel_mm == 2 * one.travel_mm


def test_travel_is_what_the_needle_moves_between_lines() -> None:
    lines = tuple(_upright(45, 65, 85))
    assert order_runs(lines, CUT, middle=(45, 0)).figures.travel_mm == pytest.approx(40)
