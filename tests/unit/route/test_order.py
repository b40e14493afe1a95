"""The order of a hooping's lines, their directions, and where the thread is cut."""

from itertools import pairwise

import numpy as np

from stitchpath.model.line import Line, LineKind
from stitchpath.model.stitches import Run
from stitchpath.route.order import UNCUT_TRAVEL_MM, order_runs
from tests.support.lines import assert_same_line, line


def _order(runs: tuple[Run, ...]) -> list[Line]:
    return [one for run in runs for one in run.lines]


def _starts(runs: tuple[Run, ...]) -> list[list[float]]:
    return [one.points[0].tolist() for one in _order(runs)]


def test_no_lines_make_no_runs() -> None:
    assert order_runs(()) == ()


def test_anchors_come_first_in_the_order_given() -> None:
    lines = (
        line([(0, 0), (0, 100)]),
        line([(50, 0), (50, 100)], anchor=True),
        line([(0, 50), (100, 50)], anchor=True),
    )
    ordered = _order(order_runs(lines))
    assert [one.anchor for one in ordered] == [True, True, False]
    assert ordered[0] is lines[1]


def test_an_anchor_begins_at_the_end_nearer_to_the_needle() -> None:
    lines = (
        line([(50, 0), (50, 100)], anchor=True),
        line([(0, 90), (60, 90)], anchor=True),
    )
    assert _starts(order_runs(lines)) == [[50, 0], [60, 90]]


def test_the_next_line_is_the_one_with_the_nearest_end_turned_round_for_it() -> None:
    """Parallel lines 20 apart are sewn back and forth."""
    lines = tuple(line([(x, 0), (x, 100)]) for x in (0, 40, 20, 60))
    assert _starts(order_runs(lines)) == [[0, 0], [20, 100], [40, 0], [60, 100]]


def test_of_two_ends_equally_near_the_first_given_is_taken() -> None:
    lines = (line([(0, 0), (0, 50)]), line([(-9, 50), (-9, 80)]), line([(9, 50), (9, 80)]))
    assert _starts(order_runs(lines)) == [[0, 0], [-9, 50], [9, 80]]


def test_kinds_follow_in_their_order_whatever_is_nearer() -> None:
    kinds = [LineKind.SEAM, LineKind.EDGE, LineKind.QUILTING, LineKind.MOUTH]
    lines = tuple(line([(x, 0), (x, 1)], kind=kind) for x, kind in enumerate(kinds))
    ordered = [one.kind for one in _order(order_runs(lines))]
    assert ordered == [LineKind.QUILTING, LineKind.MOUTH, LineKind.EDGE, LineKind.SEAM]


def test_a_reversed_line_keeps_what_must_stay_whole() -> None:
    seam = line([(90, 0), (50, 0), (50, 9), (0, 9)], kind=LineKind.SEAM, whole=((0, 2),))
    first = line([(0, 0), (0, 8)])
    turned = _order(order_runs((first, seam)))[1]
    assert_same_line(turned.points, seam.points[::-1])
    assert turned.whole == ((1, 3),)


def test_lines_that_meet_are_one_run() -> None:
    lines = (line([(0, 0), (0, 50)]), line([(0, 50), (50, 50)]))
    (run,) = order_runs(lines)
    assert len(run.lines) == 2


def test_a_short_way_leaves_the_thread_uncut_and_a_longer_one_cuts_it() -> None:
    near = (line([(0, 0), (0, 50)]), line([(UNCUT_TRAVEL_MM, 50), (99, 50)]))
    assert len(order_runs(near)) == 1
    far = (line([(0, 0), (0, 50)]), line([(UNCUT_TRAVEL_MM + 0.01, 50), (99, 50)]))
    assert len(order_runs(far)) == 2


def test_a_ring_in_two_parts_is_sewn_as_one_where_nothing_lies_nearer() -> None:
    """A closed edge line of which a border cut off the middle."""
    first = line([(0, 100), (0, 50)], kind=LineKind.EDGE)
    last = line([(60, 100), (0, 100)], kind=LineKind.EDGE)
    (run,) = order_runs((last, first))
    ways = [one.points for one in run.lines]
    assert all(np.array_equal(before[-1], after[0]) for before, after in pairwise(ways))
