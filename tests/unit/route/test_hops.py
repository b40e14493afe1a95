"""Hops with the thread uncut, and what bars them."""

import shapely

from stitchpath.route.hops import UNCUT_TRAVEL_MM, is_barred, may_hop
from tests.support.lines import line

POST = shapely.box(2, -1, 3, 1)


def test_a_short_hop_leaves_the_thread_and_a_longer_one_does_not() -> None:
    assert may_hop((0, 0), (UNCUT_TRAVEL_MM, 0), None)
    assert not may_hop((0, 0), (UNCUT_TRAVEL_MM + 0.01, 0), None)


def test_a_hop_over_a_barrier_is_not_allowed() -> None:
    assert not may_hop((0, 0), (5, 0), POST)
    assert may_hop((0, 0), (5, 0), shapely.box(2, 1, 3, 2))


def test_a_hop_that_begins_on_a_barrier_and_leads_away_is_allowed() -> None:
    assert may_hop((3, 0), (5, 0), POST)


def test_a_hop_along_a_barrier_is_not_allowed() -> None:
    assert not may_hop((2, 1), (3, 1), POST)


def test_no_move_at_all_is_barred_only_within_a_barrier() -> None:
    assert may_hop((9, 9), (9, 9), POST)


def test_a_bent_way_is_barred_where_any_of_it_is() -> None:
    assert is_barred(line([(0, 5), (2.5, 5), (2.5, 0)]).points, POST)
    assert not is_barred(line([(0, 5), (2.5, 5), (2.5, 2)]).points, POST)
