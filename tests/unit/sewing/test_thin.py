"""Needle points where a line bends more tightly than stitches can follow."""

import numpy as np

from stitchpath.sewing.limits import StitchLimits
from stitchpath.sewing.thin import far_enough

LIMITS = StitchLimits(shortest_mm=1.1, longest_mm=7.0)  # a tenth less is far enough


def kept(points: list[tuple[float, float]], *more: list[tuple[float, float]]) -> list[bool]:
    paths = (points, *more)
    starts = np.cumsum([0, *map(len, paths)])
    whole = far_enough(np.array([place for path in paths for place in path]), starts, LIMITS)
    return [bool(stays) for stays in whole]


def test_points_far_enough_apart_all_stay() -> None:
    assert kept([(0, 0), (1, 0), (2, 0.5), (3.5, 0)]) == [True] * 4


def test_a_point_near_the_last_one_goes() -> None:
    assert kept([(0, 0), (2, 0), (2.5, 0.1), (4.5, 0)]) == [True, True, False, True]


def test_a_point_that_makes_a_corner_stays_though_it_is_near() -> None:
    # left out, it would lie 0.6 off the stitch from the one before to the one after
    assert kept([(0, 0), (2, 0), (2, 0.6), (0, 0.6)]) == [True] * 4


def test_a_point_stays_where_the_stitch_over_it_would_be_too_long() -> None:
    assert kept([(0, 0), (0.5, 0), (7.2, 0)]) == [True] * 3


def test_both_ends_of_each_path_stay() -> None:
    assert kept([(0, 0), (0.4, 0)], [(0.5, 0), (0.6, 0), (0.9, 0)]) == [
        True, True, True, False, True,
    ]  # fmt: skip
