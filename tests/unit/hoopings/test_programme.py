"""Set covers: what positions there are, and the fewest of them."""

import numpy as np

from stitchpath.hoopings import programme
from stitchpath.hoopings.grid import holds
from stitchpath.hoopings.programme import find_sets, solve
from tests.support.covers import kind, turnable

SQUARES = np.array([[x, y, x + 40, y + 40] for x in (0.0, 100.0) for y in (0.0, 100.0)])


def test_positions_are_flush_with_boxes_and_none_is_part_of_another() -> None:
    sets = find_sets(SQUARES, (kind(140, 40),))
    assert sets is not None
    assert sets.corners.tolist() == [[0, 0], [0, 100]]
    assert sets.held.sum(axis=1).tolist() == [2, 2]


def test_fewest_positions_hold_all_boxes() -> None:
    kinds = turnable(140, 40)
    sets = find_sets(SQUARES, kinds)
    assert sets is not None
    solved = solve(SQUARES, sets)
    assert solved.bound == 2
    assert solved.cover is not None
    assert len(solved.cover) == 2
    assert holds(solved.cover, SQUARES)


def test_places_lie_in_the_middle_of_what_they_hold() -> None:
    boxes = np.array([[0.0, 0, 40, 40]])
    sets = find_sets(boxes, (kind(100, 100),))
    assert sets is not None
    (place,) = solve(boxes, sets).cover or ()
    assert place.centre == (20, 20)


def test_too_many_positions_are_not_looked_at() -> None:
    chance = np.random.default_rng(5)
    low = chance.uniform(0, 1000, (600, 2))
    boxes = np.column_stack([low, low + chance.uniform(1, 20, (600, 2))])
    assert find_sets(boxes, (kind(200, 300),)) is None
    assert programme.MOST_CELLS < 600**3
