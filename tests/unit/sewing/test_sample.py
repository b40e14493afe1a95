"""Needle points along lines: equal stitches, corners, curves, limits."""

import numpy as np
import pytest
import shapely

from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.sewing.limits import StitchLimits
from stitchpath.sewing.sample import sample_paths
from tests.support.lines import assert_same_line

LIMITS = StitchLimits(shortest_mm=1.0, longest_mm=7.0)


def _sample(
    points: Points | list[tuple[float, float]], stitch_mm: float, limits: StitchLimits = LIMITS
) -> Points:
    return sample_paths([np.array(points, dtype=float)], np.array([stitch_mm]), limits).xy


def _circle(radius: float, *, flattened_mm: float = 0.001) -> Points:
    """Return a circle flattened so finely that its chords leave it by a thousandth of a mm."""
    sides = int(np.ceil(np.pi / np.arccos(1 - flattened_mm / radius)))
    at = np.linspace(0, 2 * np.pi, sides + 1)
    return radius * np.column_stack([np.cos(at), np.sin(at)])


@pytest.mark.parametrize(
    ("length", "stitch", "count"),
    [
        (10.0, 2.5, 4),  # divides it: no shrinking
        (10.0, 3.0, 4),  # 3.33 stitches: four of 2.5
        (10.0, 2.4, 5),
        (2.0, 2.5, 1),  # shorter than a stitch: one
        (0.3, 2.5, 1),
        (25.4, 2.54, 10),  # ten to the inch
    ],
)
def test_a_straight_line_gets_equal_stitches_of_the_chosen_length_or_less(
    length: float, stitch: float, count: int
) -> None:
    xy = _sample([(0, 0), (length, 0)], stitch)
    np.testing.assert_allclose(segment_lengths(xy), length / count)
    assert len(xy) == count + 1


def test_float_noise_does_not_cost_a_stitch() -> None:
    """0.1 + 0.2 is a little more than 0.3, yet 3 mm are ten stitches of 0.3."""
    limits = StitchLimits(shortest_mm=0.2, longest_mm=7.0)
    assert len(_sample([(0, 0), (10 * (0.1 + 0.2), 0)], 0.3, limits)) == 11


def test_points_are_spread_by_length_over_unequal_segments() -> None:
    xy = _sample([(0, 0), (1, 0), (7, 0), (10, 0)], 2.5)
    assert_same_line(xy, [(0, 0), (2.5, 0), (5, 0), (7.5, 0), (10, 0)])


def test_corners_get_a_needle_point_and_stretches_are_divided_by_themselves() -> None:
    xy = _sample([(0, 0), (5, 0), (5, 7)], 2.5)
    assert_same_line(xy, [(0, 0), (2.5, 0), (5, 0), (5, 7 / 3), (5, 14 / 3), (5, 7)])


def test_turning_right_back_is_a_corner() -> None:
    xy = _sample([(0, 0), (6, 0), (0, 0)], 3.0)
    assert_same_line(xy[:3], [(0, 0), (3, 0), (6, 0)])
    assert xy[-1].tolist() == [0, 0]


@pytest.mark.parametrize("turn_deg", [10, 29, 31, 90, 150])
def test_a_turn_between_long_segments_is_a_corner(turn_deg: float) -> None:
    corner = np.array([50.0, 0.0])
    end = corner + 50 * np.array([np.cos(np.radians(turn_deg)), np.sin(np.radians(turn_deg))])
    xy = _sample(np.array([[0.0, 0.0], corner, end]), 3.0)
    assert np.hypot(*(xy - corner).T).min() == 0


@pytest.mark.parametrize("stub_mm", [0.3, 0.6, 0.9])
def test_a_stub_walked_out_and_back_is_sewn_to_its_end(stub_mm: float) -> None:
    """Its end lies on the infinite line through its neighbours, but not between them."""
    xy = _sample([(0, 0), (10, 0), (10, stub_mm), (10, -3), (20, -3)], 1.0)
    assert xy[:, 1].max() == pytest.approx(stub_mm, abs=0.05)


def test_a_place_near_the_end_but_far_before_it_keeps_its_needle_point() -> None:
    """The line is crooked at its start, so that it is looked through for points too near."""
    xy = _sample([(0, 0), (0.4, 0), (0.4, 0.4), (10, 1), (20, 0.4), (20, 5), (10, 1.4)], 2.5)
    assert [10, 1] in xy.tolist()


def test_a_turn_too_slight_to_show_needs_no_needle_point() -> None:
    """A stitch of 3 mm across a turn of 1 degree leaves it by 3 / 4 * 0.0175 = 0.013 mm."""
    line = np.array([[0.0, 0.0], [50.0, 0.0], [100.0, 50 * np.tan(np.radians(1))]])
    xy = _sample(line, 3.0)
    assert shapely.distance(shapely.LineString(line), shapely.points(xy)).max() <= 0.05
    np.testing.assert_allclose(segment_lengths(xy), segment_lengths(xy)[0], rtol=1e-4)


@pytest.mark.parametrize("radius", [3, 5, 10, 40, 200, 1000])
@pytest.mark.parametrize("stitch", [1.5, 2.5, 4.0])
def test_curves_are_followed_within_a_twentieth_of_a_millimetre(
    radius: float, stitch: float
) -> None:
    """The chord of a stitch s on a circle of radius r leaves it by s^2 / 8r (elementary)."""
    xy = _sample(_circle(radius), stitch)
    circle = shapely.Point(0, 0).buffer(radius, quad_segs=5000).exterior
    middles = (xy[1:] + xy[:-1]) / 2
    off = radius - np.hypot(*middles.T)
    assert off.max() <= 0.05 * 1.02  # a stitch is measured along the curve, not across
    assert shapely.distance(circle, shapely.points(xy)).max() <= 0.002
    assert segment_lengths(xy).max() <= stitch


@pytest.mark.parametrize("radius", [3, 5, 10, 40])
@pytest.mark.parametrize("stitch", [1.5, 2.5, 4.0])
def test_curves_get_no_more_stitches_than_following_them_takes(
    radius: float, stitch: float
) -> None:
    """As long as chosen, or sqrt(8 r * 0.05) where that is shorter; one more for the rest."""
    longest = min(stitch, float(np.sqrt(8 * radius * 0.05)))
    needed = 2 * np.pi * radius / longest
    assert len(_sample(_circle(radius), stitch)) - 1 <= np.ceil(needed * 1.02)


@pytest.mark.parametrize(("radius", "count"), [(2.5, 15), (1.5, 9)])
def test_on_curves_tighter_than_the_shortest_stitch_allows_it_wins(
    radius: float, count: int
) -> None:
    """At r = s^2 / (8 * 0.05), 2.5 mm for s = 1 mm, the shortest stitch begins to leave it.

    Both circles are not a whole number of stitches of 1 mm, so they get stitches of 1.047 mm:
    1.047^2 / 8r is 0.055 mm at 2.5 mm and 0.091 mm at 1.5 mm.
    """
    xy = _sample(_circle(radius), 2.5)
    assert len(xy) == count + 1
    assert segment_lengths(xy).min() >= 1.0
    off = radius - np.hypot(*((xy[1:] + xy[:-1]) / 2).T)
    assert off.max() == pytest.approx(
        (2 * np.pi * radius / count) ** 2 / (8 * radius), rel=0.02
    )


def test_stitches_that_would_be_too_short_are_fewer_and_longer() -> None:
    """5 mm at a chosen 1.2: five of 1.0 would be shorter than 1.15."""
    limits = StitchLimits(shortest_mm=1.15, longest_mm=7.0)
    np.testing.assert_allclose(segment_lengths(_sample([(0, 0), (5, 0)], 1.2, limits)), 1.25)


def test_no_stitch_is_longer_than_the_longest_even_where_a_longer_one_is_chosen() -> None:
    limits = StitchLimits(shortest_mm=1.0, longest_mm=4.0)
    np.testing.assert_allclose(segment_lengths(_sample([(0, 0), (10, 0)], 6.0, limits)), 10 / 3)


def test_a_line_shorter_than_the_shortest_stitch_is_one_stitch() -> None:
    assert len(_sample([(0, 0), (0.4, 0)], 2.5)) == 2


def test_paths_are_sampled_each_by_its_own_stitch() -> None:
    paths = [np.array([[0.0, 0], [10, 0]]), np.array([[0.0, 5], [10, 5]])]
    sampled = sample_paths(paths, np.array([2.5, 5.0]), LIMITS)
    assert sampled.starts.tolist() == [0, 5, 8]
    assert sampled.xy[5].tolist() == [0, 5]


def test_the_limits_leave_room_for_rounding() -> None:
    """Two points rounded to 0.1 mm each move by 0.0708 mm at most, together 0.1415 mm."""
    limits = StitchLimits.with_rounding_room(1.0, 7.0)
    assert limits.shortest_mm - 1.0 >= 0.1415
    assert 7.0 - limits.longest_mm >= 0.1415


def test_a_second_pass_has_its_holes_between_those_of_the_first() -> None:
    xy = _sample([(0, 0), (10, 0), (0, 0)], 2.5)
    assert sorted(xy[5:-1, 0].tolist()) == [1.25, 3.75, 6.25, 8.75]


def test_a_second_pass_keeps_to_the_longest_stitch() -> None:
    """Four stitches of 2.5: shifted by half, both ends would leave 1.25, too short for 1.3.

    Left out, that would make stitches of 3.75, too long for 3; so these get a hole in their
    middle.
    """
    limits = StitchLimits(shortest_mm=1.3, longest_mm=3.0)
    steps = segment_lengths(_sample([(0, 0), (10, 0), (0, 0)], 2.5, limits))[4:]
    np.testing.assert_allclose(steps, [1.875, 1.875, 2.5, 1.875, 1.875])


def test_a_second_pass_may_be_longer_at_its_ends_where_that_is_allowed() -> None:
    limits = StitchLimits(shortest_mm=1.3, longest_mm=7.0)
    steps = segment_lengths(_sample([(0, 0), (10, 0), (0, 0)], 2.5, limits))[4:]
    np.testing.assert_allclose(steps, [3.75, 2.5, 3.75])


@pytest.mark.parametrize("radius", [0.15, 0.3, 0.45])
@pytest.mark.parametrize("before", np.linspace(9.0, 10.8, 7).tolist())
def test_a_bend_too_tight_to_follow_gets_one_needle_point_near_its_tip(
    radius: float, before: float
) -> None:
    """Two legs joined by half a circle, which no two stitches of 1 mm can go round."""
    angle = np.linspace(-np.pi / 2, np.pi / 2, 25)
    tip = np.column_stack([before + radius * np.cos(angle), radius * np.sin(angle)])
    # slightly curved, so that the legs and the bend are one stretch
    along = np.linspace(0, before, 60)[:-1]
    sag = 0.2 * (along / before * (1 - along / before))
    there = np.column_stack([along, -radius - sag])
    line = np.concatenate([there, tip, (there * (1, -1))[::-1]])
    xy = _sample(line, 2.0)
    steps = np.hypot(*np.diff(xy, axis=0).T)
    assert steps.min() >= 1.0 - GRID_MM - 1e-9
    assert np.hypot(*(xy - (before + radius, 0)).T).min() <= 0.6


@pytest.mark.parametrize(("radius", "before"), [(0.3, 1.2), (0.4, 0.9), (0.5, 1.2), (0.6, 0.6)])
def test_the_first_two_holes_of_a_line_are_one_at_the_tip_too(
    radius: float, before: float
) -> None:
    """A hairpin that takes three stitches, of which the one round its tip is too short."""
    angle = np.radians(np.linspace(-90, 90, 13))
    tip = np.column_stack([before + radius * np.cos(angle), radius * np.sin(angle)])
    xy = _sample(np.concatenate([[(0, -radius)], tip, [(0, radius)]]), 2.5)
    assert_same_line(xy, [(0, -radius), (before + radius, 0), (0, radius)])
