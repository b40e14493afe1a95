"""The reinforcing triangle: how often each leg is sewn, where it begins and ends, its mirror.

Source of the figure: patch-pocket corners stitched at an angle and closed to a small triangle,
US extension bulletin 574, 1964 (docs/sources.md); the order of its legs is common practice, no
source.
"""

from itertools import pairwise

import numpy as np
import pytest

from stitchpath.pieces.corner import corner_path
from tests.support.lines import assert_same_line

CORNER, FOOT, ACROSS = (100.0, 50.0), (100.0, 72.0), (112.0, 50.0)
LEGS = {
    "side": frozenset({CORNER, FOOT}),
    "mouth": frozenset({CORNER, ACROSS}),
    "slant": frozenset({ACROSS, FOOT}),
}


def _path(passes: int, hand: str = "left") -> list[tuple[float, float]]:
    path = corner_path(
        corner=CORNER,
        side_mm=22,
        across_mm=12,
        passes=passes,
        hand="left" if hand == "left" else "right",
    )
    return [(x, y) for x, y in path.tolist()]


def _times(path: list[tuple[float, float]], leg: str) -> int:
    return [frozenset(step) for step in pairwise(path)].count(LEGS[leg])


@pytest.mark.parametrize(
    ("passes", "side", "mouth"), [(1, 1, 1), (2, 2, 1), (3, 2, 3), (4, 4, 3), (5, 4, 5)]
)
def test_each_leg_is_sewn_as_often_as_its_way_allows(
    passes: int, side: int, mouth: int
) -> None:
    path = _path(passes)
    assert (_times(path, "side"), _times(path, "mouth")) == (side, mouth)
    assert _times(path, "slant") == 1


@pytest.mark.parametrize("passes", range(1, 6))
@pytest.mark.parametrize("leg", ["side", "mouth"])
def test_no_leg_is_sewn_more_often_than_asked_for(passes: int, leg: str) -> None:
    assert 1 <= _times(_path(passes), leg) <= passes


@pytest.mark.parametrize("passes", range(1, 6))
def test_every_path_ends_where_the_side_leg_ends(passes: int) -> None:
    assert _path(passes)[-2:] == [ACROSS, FOOT]


@pytest.mark.parametrize("passes", range(2, 6))
def test_more_than_one_pass_begins_at_the_corner(passes: int) -> None:
    assert _path(passes)[0] == CORNER


def test_one_pass_begins_at_the_side_legs_end() -> None:
    assert _path(1) == [FOOT, CORNER, ACROSS, FOOT]


def test_three_passes_go_the_way_it_is_done_by_hand() -> None:
    """Down the side, back, along the mouth, back, forward again, then slanting."""
    assert _path(3) == [CORNER, FOOT, CORNER, ACROSS, CORNER, ACROSS, FOOT]


@pytest.mark.parametrize("passes", range(1, 6))
def test_no_step_of_a_path_goes_anywhere_but_along_a_leg(passes: int) -> None:
    steps = {frozenset(step) for step in pairwise(_path(passes))}
    assert steps == set(LEGS.values())


@pytest.mark.parametrize("passes", range(1, 6))
def test_the_right_hand_corner_is_the_mirror_image(passes: int) -> None:
    left, right = np.array(_path(passes)), np.array(_path(passes, "right"))
    assert_same_line(right, left * (-1, 1) + (2 * CORNER[0], 0))
