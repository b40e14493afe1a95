"""Repeated stretches: holes do not fall into the holes of an earlier pass."""

import numpy as np
import pytest
from scipy.spatial import cKDTree

from stitchpath.geometry.points import Points
from stitchpath.model.project import Machine, PocketSeam
from stitchpath.pieces.corner import corner_path
from stitchpath.sewing import sew
from stitchpath.sewing.stagger import repeat_shifts
from tests.support.lines import run


def _shifts(*stretches: tuple[tuple[float, float], tuple[float, float]]) -> list[float]:
    starts, ends = (np.array([stretch[side] for stretch in stretches]) for side in (0, 1))
    shifts: list[float] = repeat_shifts(starts, ends, np.zeros(len(stretches), int)).tolist()
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
    assert repeat_shifts(same, np.array([B, B]), np.array([0, 1])).tolist() == [0, 0]


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
