"""What holds for the order of any lines."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.geometry.points import path_length
from stitchpath.model.line import Line, LineKind
from stitchpath.model.route import Route
from stitchpath.route.costs import Costs
from stitchpath.route.hops import UNCUT_TRAVEL_MM
from stitchpath.route.order import order_runs
from tests.strategies import lines

any_lines = st.lists(lines(reach_mm=60), min_size=1, max_size=8).map(tuple)
any_costs = st.builds(
    Costs,
    travel=st.sampled_from(["cut", "edge", "retrace"]),
    cut_seconds=st.sampled_from([0.5, 5.0, 60.0]),
    same_direction=st.booleans(),
    closes_loops=st.booleans(),
)


def _route(given_lines: tuple[Line, ...], costs: Costs) -> Route:
    return order_runs(given_lines, costs, middle=(0.0, 0.0))


def _sewn(route: Route) -> list[Line]:
    return [line for run in route.runs for line in run.lines]


def _drawn(some: list[Line]) -> shapely.Geometry:
    return shapely.union_all([shapely.LineString(line.points) for line in some])


@given(given_lines=any_lines, costs=any_costs)
def test_every_line_is_sewn_once_and_all_of_it(
    given_lines: tuple[Line, ...], costs: Costs
) -> None:
    once = [line for line in _sewn(_route(given_lines, costs)) if not line.again]
    for kind in LineKind:
        sewn, wanted = (
            sum(path_length(line.points) for line in some if line.kind is kind)
            for some in (once, given_lines)
        )
        assert sewn == pytest.approx(wanted, abs=0.05)
    apart = shapely.hausdorff_distance(_drawn(once), _drawn(list(given_lines)))
    assert apart < 5e-3


@given(given_lines=any_lines, costs=any_costs)
def test_nothing_is_sewn_more_than_twice(given_lines: tuple[Line, ...], costs: Costs) -> None:
    """Of what is sewn again, no two parts of one kind and stitch lie on one another."""
    again = [line for line in _sewn(_route(given_lines, costs)) if line.again]
    drawn_twice = (
        shapely.length(_drawn(list(given_lines)))
        < sum(path_length(line.points) for line in given_lines) - 0.01
    )
    if again and not drawn_twice:
        length = sum(path_length(line.points) for line in again)
        assert shapely.length(_drawn(again)) == pytest.approx(length, abs=0.05)


@given(given_lines=any_lines, costs=any_costs)
def test_runs_are_never_more_than_lines_sewn_once_need(
    given_lines: tuple[Line, ...], costs: Costs
) -> None:
    figures = _route(given_lines, costs).figures
    assert 1 <= figures.runs <= figures.least_runs
    assert (figures.retraced_mm == 0) or costs.travel != "cut"


@given(given_lines=any_lines, costs=any_costs)
def test_sewing_goes_on_within_a_run_or_hops_and_a_cut_is_never_needless(
    given_lines: tuple[Line, ...], costs: Costs
) -> None:
    route = _route(given_lines, costs)
    for run in route.runs:
        for before, after in pairwise(run.lines):
            assert np.hypot(*(after.points[0] - before.points[-1])) <= UNCUT_TRAVEL_MM
    for cut_run, next_run in pairwise(route.runs):
        travel = np.hypot(*(next_run.lines[0].points[0] - cut_run.lines[-1].points[-1]))
        assert travel > UNCUT_TRAVEL_MM


@given(
    given_lines=any_lines,
    costs=any_costs,
    corner=st.tuples(st.integers(-60, 50), st.integers(-60, 50)),
    size=st.tuples(st.integers(1, 40), st.integers(1, 40)),
)
def test_no_thread_lies_across_what_must_stay_clear(
    given_lines: tuple[Line, ...],
    costs: Costs,
    corner: tuple[int, int],
    size: tuple[int, int],
) -> None:
    """Neither a hop nor a way sewn again; designed lines lie where they lie."""
    clear = shapely.box(*corner, corner[0] + size[0], corner[1] + size[1])
    route = order_runs(given_lines, costs, middle=(0.0, 0.0), barriers=clear)
    ways = [line.points for line in _sewn(route) if line.again]
    for run in route.runs:
        ways += [
            np.array([before.points[-1], after.points[0]])
            for before, after in pairwise(run.lines)
            if (before.points[-1] != after.points[0]).any()
        ]
    inside = clear.buffer(-0.01)
    assert not any(shapely.intersects(inside, shapely.LineString(way)) for way in ways)


@given(given_lines=any_lines, costs=any_costs)
def test_cuts_made_to_keep_loops_open_are_what_closed_loops_save(
    given_lines: tuple[Line, ...], costs: Costs
) -> None:
    kept = _route(given_lines, replace(costs, closes_loops=False)).figures
    closed = _route(given_lines, replace(costs, closes_loops=True)).figures
    assert closed.open_cuts == 0
    assert kept.open_cuts == max(0, kept.runs - closed.runs)


@given(given_lines=any_lines, costs=any_costs)
def test_anchors_come_before_runs_without_any(
    given_lines: tuple[Line, ...], costs: Costs
) -> None:
    """But for lines that are sewn on the way: those of a run that has an anchor."""
    sewn = _sewn(_route(given_lines, costs))
    last = max((place for place, line in enumerate(sewn) if line.anchor), default=-1)
    runs = _route(given_lines, costs).runs
    ends = np.cumsum([len(run.lines) for run in runs])
    number = int(np.searchsorted(ends, last, side="right"))
    for run in runs[:number]:
        assert last == -1 or any(line.anchor for line in run.lines)


@given(given_lines=any_lines, costs=any_costs)
def test_a_route_is_the_same_again(given_lines: tuple[Line, ...], costs: Costs) -> None:
    first, second = _sewn(_route(given_lines, costs)), _sewn(_route(given_lines, costs))
    assert [line.points.tobytes() for line in first] == [
        line.points.tobytes() for line in second
    ]


@given(
    given_lines=any_lines,
    shift=st.tuples(st.integers(-500, 500), st.integers(-500, 500)),
    quarters=st.integers(0, 3),
)
def test_a_piece_moved_or_turned_takes_as_many_runs(
    given_lines: tuple[Line, ...], shift: tuple[int, int], quarters: int
) -> None:
    turn = np.linalg.matrix_power(np.array([[0.0, -1.0], [1.0, 0.0]]), quarters)
    moved = tuple(
        Line(points=line.points @ turn.T + shift, kind=line.kind, stitch_mm=line.stitch_mm)
        for line in given_lines
    )
    before = _route(given_lines, Costs(travel="cut")).figures.least_runs
    assert _route(moved, Costs(travel="cut")).figures.least_runs == before
