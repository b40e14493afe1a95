"""Repeated stretches: holes do not fall into the holes of an earlier pass."""

from itertools import pairwise

import numpy as np
import pytest
from scipy.spatial import cKDTree

from stitchpath.geometry.points import Points
from stitchpath.model.line import LineKind
from stitchpath.model.machine import Machine
from stitchpath.model.quilt import PocketSeam
from stitchpath.pieces.corner import corner_path
from stitchpath.route import order_runs
from stitchpath.route.costs import Costs
from stitchpath.sewing import sew
from stitchpath.sewing.limits import StitchLimits
from stitchpath.sewing.sample import sample_paths
from stitchpath.sewing.stagger import find_hosts, phase_beside, repeat_shifts
from tests.support.lines import assert_same_line, line, run


def _shifts(*stretches: tuple[tuple[float, float], tuple[float, float]]) -> list[float]:
    starts, ends = (np.array([stretch[side] for stretch in stretches]) for side in (0, 1))
    one_path = np.zeros(len(stretches), int)
    shifts: list[float] = repeat_shifts(
        starts, ends, one_path, lambda which: (starts + ends)[which] / 2
    ).tolist()
    return shifts


A, B = (0.0, 0.0), (9.0, 0.0)


def test_stretches_sewn_once_are_not_shifted() -> None:
    assert _shifts((A, B), (B, (9.0, 9.0)), ((9.0, 9.0), A)) == [0, 0, 0]


def test_repeats_fall_into_the_middle_of_the_widest_room_left() -> None:
    """The van der Corput sequence in base 2: 1/2, 1/4, 3/4, 1/8 (from memory)."""
    assert _shifts(*[(A, B)] * 5) == [0, 0.5, 0.25, 0.75, 0.125]


def test_on_the_way_back_the_shift_is_counted_from_the_same_end() -> None:
    assert _shifts((A, B), (B, A), (A, B), (B, A)) == [0, 0.5, 0.25, 0.25]


def test_upright_stretches_are_told_from_their_way_back_too() -> None:
    assert _shifts(((0, 0), (0, 9)), ((0, 9), (0, 0)), ((0, 9), (0, 0))) == [0, 0.5, 0.75]


def test_other_paths_do_not_count() -> None:
    same = np.array([A, A])
    shifts = repeat_shifts(same, np.array([B, B]), np.array([0, 1]), lambda which: same[which])
    assert shifts.tolist() == [0, 0]


@pytest.mark.parametrize(
    ("off_mm", "shift"), [(0.0, 0.5), (1e-6, 0.5), (0.08, 0.0), (3.0, 0.0)]
)
def test_ways_between_the_same_ends_are_one_where_their_middles_are(
    off_mm: float, shift: float
) -> None:
    """What clipping blurs by 1e-6 mm is one way; a bow beside a straight line is another."""
    middles = np.array([(4.5, 0.0), (4.5, off_mm)])
    shifts = repeat_shifts(
        np.array([A, B]), np.array([B, A]), np.zeros(2, int), lambda which: middles[which]
    )
    assert shifts.tolist() == [0, shift]


def test_the_second_side_of_a_leaf_has_the_holes_that_it_has_alone() -> None:
    """Two arcs of 40 mm round the same two tips share no hole but those."""
    turn = np.radians(np.linspace(-40, 40, 33))
    bow = 40 * np.column_stack([np.sin(turn), np.cos(turn) - np.cos(turn[0])])
    leaf = np.concatenate([bow, (bow * (1, -1))[-2::-1]])
    limits = StitchLimits(shortest_mm=1, longest_mm=7)
    whole, half = (sample_paths([path], np.array([2.5]), limits).xy for path in (leaf, bow))
    assert_same_line(whole, np.concatenate([half, (half * (1, -1))[-2::-1]]))


def _needle_points(passes: int) -> Points:
    seam = PocketSeam()
    triangle = corner_path(
        corner=(0, 0),
        side_mm=seam.corner_side,
        across_mm=seam.corner_across,
        passes=passes,
    )
    way = [(x, y) for x, y in triangle.tolist()] + [(0.0, 100.0)]
    stitches = sew((run(way, stitch_mm=seam.stitch_length),), Machine(), draws_up=False)
    return stitches.needle_points


@pytest.mark.parametrize("passes", [2, 3, 4])
def test_no_hole_of_the_usual_corner_falls_within_a_fifth_of_a_mm_of_another(
    passes: int,
) -> None:
    """But for the three corners themselves, which every pass has to hit; ties counted."""
    xy = _needle_points(passes)
    seam = PocketSeam()
    corners = np.array([(0, 0), (0, seam.corner_side), (seam.corner_across, 0)])
    inner = xy[cKDTree(corners).query(xy)[0] > 1e-6]
    assert cKDTree(inner).query_pairs(0.2) == set()


@pytest.mark.parametrize("passes", [2, 3, 4, 5])
def test_corners_of_the_triangle_are_hit_once_for_each_time_the_line_turns(passes: int) -> None:
    """More than 3 to 4 passes over one line only perforate (common practice, no source)."""
    xy = _needle_points(passes)
    triangle = corner_path(corner=(0, 0), side_mm=22.225, across_mm=12.7, passes=passes)
    for vertex in np.unique(triangle, axis=0):
        visits = int((np.hypot(*(triangle - vertex).T) < 1e-9).sum())
        assert int((np.hypot(*(xy - vertex).T) < 1e-9).sum()) == visits


# Parts of longer stretches -------------------------------------------------------------------


def _hosts(*stretches: tuple[tuple[float, float], tuple[float, float]]) -> list[int]:
    starts, ends = (np.array([stretch[side] for stretch in stretches]) for side in (0, 1))
    lengths = np.hypot(*(ends - starts).T)
    hosts: list[int] = find_hosts(starts, ends, lengths).tolist()
    return hosts


def test_a_part_of_a_longer_stretch_lies_on_it_in_either_direction() -> None:
    assert _hosts((A, B), ((2, 0), (5, 0)), ((9, 0), (6, 0))) == [-1, 0, 0]


def test_what_crosses_reaches_past_or_is_as_long_lies_on_nothing() -> None:
    assert _hosts((A, B), ((4, -1), (4, 1)), ((5, 0), (12, 0)), (B, A)) == [-1] * 4


def test_bent_stretches_are_no_hosts() -> None:
    starts, ends = np.array([[0.0, 0.0], [2.0, 0.0]]), np.array([[9.0, 0.0], [5.0, 0.0]])
    assert find_hosts(starts, ends, np.array([10.0, 3.0])).tolist() == [-1, -1]


@pytest.mark.parametrize(("start", "phase"), [(0.0, 0.5), (1.0, 0.0), (1.5, 0.75), (2.5, 0.25)])
def test_the_middles_between_a_hosts_holes_are_counted_from_the_part(
    start: float, phase: float
) -> None:
    """Holes every 2 mm: middles at 1, 3, 5; from 1.5 the next is 1.5 mm on, 3/4 of a stitch."""
    place = np.array([[start, 0.0]])
    found = phase_beside(place, np.array([A]), np.array([B]), np.array([2.0]))
    assert found.tolist() == [phase]


@pytest.mark.parametrize("part", [(13.0, 33.0), (33.0, 13.0), (7.3, 17.1)])
@pytest.mark.parametrize("whole", [(0.0, 100.0), (100.0, 0.0)])
def test_holes_of_a_part_sewn_again_lie_in_the_middles_between_those_of_the_whole(
    part: tuple[float, float], whole: tuple[float, float]
) -> None:
    """100 mm take 40 stitches of 2.5 mm, so middles lie at 1.25, 3.75, ..."""
    paths = [np.array([(x, 30.0) for x in way]) for way in (part, whole)]
    limits = StitchLimits(shortest_mm=1, longest_mm=7)
    sampled = sample_paths(paths, np.array([2.5, 2.5]), limits, goes_again=True)
    own, other = (sampled.xy[a:b, 0] for a, b in pairwise(sampled.starts.tolist()))
    assert own[[0, -1]].tolist() == list(part)
    assert len(own) >= 5
    np.testing.assert_allclose(own[1:-1] % 2.5, 1.25, atol=1e-9)
    np.testing.assert_allclose(np.abs(np.diff(other)), 2.5)
    steps = np.abs(np.diff(own))
    assert 1 <= steps.min() <= steps.max() <= 2.5 + 1


def test_a_whole_stretch_that_another_path_sews_again_is_staggered_too() -> None:
    paths = [np.array([(0.0, 0.0), (50.0, 0.0)])] * 2
    limits = StitchLimits(shortest_mm=1, longest_mm=7)
    stitch_mm = np.array([2.5, 2.5])
    for goes_again, nearest in ((False, 0.0), (True, 1.25)):
        sampled = sample_paths(paths, stitch_mm, limits, goes_again=goes_again)
        first, second = (sampled.xy[a:b, 0] for a, b in pairwise(sampled.starts.tolist()))
        away = np.abs(first[1:-1, None] - second[None, 1:-1]).min()
        assert away == pytest.approx(nearest)


def test_channels_joined_along_an_edge_leave_no_hole_in_a_hole_of_the_edge() -> None:
    """Six channels 24.7 mm apart; holes where lines end are shared, as they must be."""
    ring = line([(0, 0), (200, 0), (200, 200), (0, 200), (0, 0)], kind=LineKind.EDGE)
    ends = 20.3 + 24.7 * np.arange(6)
    channels = [line([(0, y), (200, y)]) for y in ends]
    costs = Costs(travel="edge", cut_seconds=5, penalty_per_mm=0.05)
    route = order_runs((*channels, ring), costs, middle=(100, 0))
    assert route.figures.retraced_mm == pytest.approx(5 * 24.7)
    xy = sew(route.runs, Machine(), draws_up=False).needle_points
    left = np.sort(xy[np.abs(xy[:, 0]) < 1e-6, 1])
    away = np.abs(left[:, None] - ends[None]).min(axis=1)
    assert np.diff(left[away > 1.5]).min() > 0.5
