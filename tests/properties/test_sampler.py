"""What holds for needle points along any polyline, and for parts cut out of one."""

from itertools import pairwise

import numpy as np
import shapely
from hypothesis import assume, example, given
from hypothesis import strategies as st
from numpy.typing import NDArray

from stitchpath.geometry.paths import cut_path, distances_along, points_at
from stitchpath.geometry.points import Points, path_length, segment_lengths
from stitchpath.geometry.tolerance import GRID_MM, MEETING_MM
from stitchpath.sewing.limits import StitchLimits
from stitchpath.sewing.sample import sample_paths
from stitchpath.sewing.sewn_stretches import sewn_stretches
from tests.strategies import angles, lengths, points, polylines, windings
from tests.support.lines import assert_same_line

LIMITS = StitchLimits(shortest_mm=1.0, longest_mm=7.0)
stitches = lengths(1.0, 6.0)


def _sample(line: Points, stitch_mm: float) -> Points:
    return sample_paths([line], np.array([stitch_mm]), LIMITS).xy


def _rotation(angle_deg: float) -> Points:
    cos, sin = np.cos(np.radians(angle_deg)), np.sin(np.radians(angle_deg))
    return np.array([[cos, sin], [-sin, cos]])


@given(line=polylines(), stitch_mm=stitches)
def test_both_ends_and_every_sharp_corner_get_a_needle_point(
    line: Points, stitch_mm: float
) -> None:
    xy = _sample(line, stitch_mm)
    assert_same_line(xy[[0, -1]], line[[0, -1]])
    for corner in line[1:-1][_turns_deg(line) > 30.1]:
        assert np.hypot(*(xy - corner).T).min() <= 1e-9


@given(line=polylines(), stitch_mm=stitches)
def test_needle_points_and_the_thread_between_stay_on_the_line(
    line: Points, stitch_mm: float
) -> None:
    xy = _sample(line, stitch_mm)
    places = shapely.points(np.concatenate([xy, (xy[1:] + xy[:-1]) / 2]))
    assert shapely.distance(shapely.LineString(line), places).max() <= 0.05


@given(line=polylines(shortest_mm=1.0), stitch_mm=stitches)
@example(line=np.array([(0.0, 30.0), (10.0, 0.0), (16.0, -11.0)]), stitch_mm=1.0)
def test_stitches_keep_to_the_limits_where_the_line_lets_them(
    line: Points, stitch_mm: float
) -> None:
    """Stitches are counted along the line: across a blunt bend one is shorter than its way."""
    steps = segment_lengths(_sample(line, stitch_mm))
    assert steps.max() <= LIMITS.longest_mm + 1e-9
    turn = _turns_deg(line)
    is_blunt = bool(((turn > 1e-6) & (turn < 30.1)).any())
    assert steps.min() >= LIMITS.shortest_mm - (GRID_MM if is_blunt else 0) - 1e-6


@given(ends=st.tuples(points(), points()), stitch_mm=stitches)
def test_a_straight_line_gets_equal_stitches_as_few_as_the_chosen_length_allows(
    ends: tuple[tuple[float, float], tuple[float, float]], stitch_mm: float
) -> None:
    line = np.array(ends)
    length = path_length(line)
    assume(length >= 2 * LIMITS.longest_mm)
    steps = segment_lengths(_sample(line, stitch_mm))
    np.testing.assert_allclose(steps, steps[0], rtol=1e-9)
    assert steps[0] <= stitch_mm * (1 + 1e-8) or steps[0] <= 1.2  # or as short as allowed
    if steps[0] > 1.2:
        assert length / (len(steps) - 1) > stitch_mm * (1 - 1e-8)


def _triangle(*corners: tuple[float, float]) -> Points:
    return np.array([*corners, corners[0]])


@given(line=polylines() | windings(), stitch_mm=stitches)
@example(line=_triangle((0.25, 2), (0, 0), (0, -1)), stitch_mm=1.0)
@example(line=_triangle((0.5, 1), (0, 0), (0, -1)), stitch_mm=2.2)
def test_sewing_the_other_way_makes_the_same_holes(line: Points, stitch_mm: float) -> None:
    """But where it goes over itself, or a bend puts holes so near that some are left out.

    Second passes are shifted, counted from one end. And of two holes of a bend, as far from its
    tip as each other, one stays: the line as it is does not say which.
    """
    assume(not _goes_over_itself(line) and not _bends_too_tightly(line, stitch_mm))
    assert_same_line(
        _sample(line[::-1], stitch_mm)[::-1], _sample(line, stitch_mm), tol_mm=1e-6
    )


@given(line=polylines(), stitch_mm=stitches, by=points(5000))
def test_moving_a_line_moves_its_holes(
    line: Points, stitch_mm: float, by: tuple[float, float]
) -> None:
    moved = _sample(line + by, stitch_mm)
    assert_same_line(moved, _sample(line, stitch_mm) + by, tol_mm=1e-6)


@given(line=polylines(), stitch_mm=stitches)
def test_mirroring_a_line_mirrors_its_holes(line: Points, stitch_mm: float) -> None:
    assume(not _goes_over_itself(line))
    mirror = np.array([-1.0, 1.0])
    assert_same_line(_sample(line * mirror, stitch_mm), _sample(line, stitch_mm) * mirror)


@given(line=polylines(), stitch_mm=stitches, angle_deg=angles())
def test_turning_a_line_turns_its_holes(
    line: Points, stitch_mm: float, angle_deg: float
) -> None:
    assume(not _goes_over_itself(line) and not _is_on_a_knife_edge(line, stitch_mm))
    turn = _rotation(angle_deg)
    assert_same_line(
        _sample(line @ turn, stitch_mm), _sample(line, stitch_mm) @ turn, tol_mm=1e-6
    )


@given(first=polylines(), second=polylines(), stitch_mm=stitches)
def test_paths_do_not_change_one_another(
    first: Points, second: Points, stitch_mm: float
) -> None:
    both = sample_paths([first, second], np.array([stitch_mm, 2.0]), LIMITS)
    assert_same_line(both.xy[: both.starts[1]], _sample(first, stitch_mm), tol_mm=1e-6)
    assert_same_line(both.xy[both.starts[1] :], _sample(second, 2.0), tol_mm=1e-6)


shares = st.lists(st.floats(0, 1), min_size=2, max_size=2).map(sorted)


@given(line=polylines(), share=shares)
def test_a_part_of_a_line_is_as_long_as_asked_for(line: Points, share: list[float]) -> None:
    bounds = np.array(share) * path_length(line)
    (part,) = cut_path(line, bounds[None, :])
    np.testing.assert_allclose(path_length(part), bounds[1] - bounds[0], atol=1e-5)
    assert_same_line(part[[0, -1]], points_at(line, bounds))


@given(line=polylines(), cuts=st.lists(st.floats(0, 1), max_size=4).map(sorted))
def test_parts_put_together_are_the_line(line: Points, cuts: list[float]) -> None:
    at = np.array([0.0, *cuts, 1.0]) * path_length(line)
    parts = cut_path(line, np.column_stack([at[:-1], at[1:]]))
    for before, after in pairwise(parts):
        assert_same_line(before[-1], after[0])
    together = np.concatenate([parts[0], *(part[1:] for part in parts[1:])])
    for vertex in line:
        assert np.hypot(*(together - vertex).T).min() <= 2e-6
    np.testing.assert_allclose(path_length(together), path_length(line), atol=1e-4)


@given(line=polylines(), share=shares)
def test_cutting_a_reversed_line_gives_the_part_reversed(
    line: Points, share: list[float]
) -> None:
    length = path_length(line)
    bounds = np.array(share) * length
    (part,) = cut_path(line, bounds[None, :])
    (other,) = cut_path(line[::-1], (length - bounds[::-1])[None, :])
    assert_same_line(_without_doubles(other[::-1]), _without_doubles(part), tol_mm=1e-5)


@given(line=polylines(), share=shares, angle_deg=angles(), by=points(5000))
def test_cutting_a_turned_mirrored_and_moved_line_gives_the_part_so(
    line: Points, share: list[float], angle_deg: float, by: tuple[float, float]
) -> None:
    bounds = np.array(share)[None, :] * path_length(line)
    turn = _rotation(angle_deg) * (-1.0, 1.0)
    (part,) = cut_path(line, bounds)
    (other,) = cut_path(line @ turn + by, bounds)
    expected = _without_doubles(part) @ turn + by
    assert_same_line(_without_doubles(other), expected, tol_mm=1e-5)


@given(line=polylines())
def test_distances_along_a_line_grow_and_end_at_its_length(line: Points) -> None:
    along = distances_along(line)
    assert np.all(np.diff(along) > 0)
    np.testing.assert_allclose(along[-1], path_length(line))


def _turns_deg(line: Points) -> NDArray[np.float64]:
    """Return by how much a line turns at each vertex but its ends, degrees."""
    heading = np.degrees(np.arctan2(*np.diff(line, axis=0).T[::-1]))
    return np.asarray(np.abs((np.diff(heading) + 180) % 360 - 180))


def _goes_over_itself(line: Points) -> bool:
    """Whether a line goes over a stretch of itself again, but for what is taken for meeting."""
    once = shapely.union_all([shapely.LineString(line)], grid_size=3 * MEETING_MM).length
    return bool(once < path_length(line) - 0.1)


def _bends_too_tightly(line: Points, stitch_mm: float) -> bool:
    """Whether equal stitches along a line come out so short that some may be left out."""
    stretches = sewn_stretches([line], np.array([stitch_mm]), LIMITS)
    counts = stretches.counts(LIMITS)
    shares = np.concatenate([np.arange(1, count + 1) / count for count in counts])
    holes = stretches.places(np.repeat(np.arange(len(counts)), counts), shares)
    steps = segment_lengths(np.concatenate([line[:1], holes]))
    return bool(steps.min() < LIMITS.shortest_mm - GRID_MM + 1e-6)


def _is_on_a_knife_edge(line: Points, stitch_mm: float) -> bool:
    """Whether float noise may decide about a corner or about one stitch more."""
    turn = _turns_deg(line)
    of_stitches = segment_lengths(line) / np.array([[stitch_mm], [1.0], [7.0]])
    near_whole = np.abs(of_stitches - np.round(of_stitches)) < 1e-6
    return bool(near_whole.any() or (np.abs(turn - 30) < 0.1).any() or (turn < 10).any())


def _without_doubles(part: Points) -> Points:
    """Return a part without vertices that lie on the one before."""
    kept: Points = part[np.concatenate([[True], segment_lengths(part) > 1e-5])]
    return kept
