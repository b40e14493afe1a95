"""Ties: short stitches along the line at both ends, none on the spot, no hole twice.

At least three tying stitches: US Army repair manuals (docs/sources.md). Their length, 0.7 to
1.0 mm, is common practice, no source.
"""

import numpy as np
import pytest
import shapely
from scipy.spatial import cKDTree

from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.model.machine import Machine
from stitchpath.model.stitches import Stitches
from stitchpath.sewing import sew
from tests.support.lines import run


def _sew(points: list[tuple[float, float]], stitch_mm: float) -> Stitches:
    return sew((run(points, stitch_mm=stitch_mm),), Machine(), draws_up=False)


def _along(stitch_mm: float, length: float = 100.0) -> Points:
    """Return how far along a straight line each needle point lies, in order of sewing."""
    stitches = _sew([(0, 0), (length, 0)], stitch_mm)
    return np.asarray(stitches.needle_points[:, 0])


def test_a_start_goes_forward_twice_back_and_on() -> None:
    """Stitch 2.5: its third is 0.833."""
    np.testing.assert_allclose(
        _along(2.5)[:6], [0, 2.5 / 3, 5 / 3, 2.5 / 6, 2.5, 5.0], atol=1e-9
    )


def test_an_end_is_the_mirror_image_of_a_start() -> None:
    along = _along(2.5)
    np.testing.assert_allclose(100 - along[::-1], along, atol=1e-9)


@pytest.mark.parametrize("stitch_mm", [2.1, 2.5, 2.8, 3.0, 4.0])
def test_ties_of_usual_stitches_are_of_seven_to_ten_tenths(stitch_mm: float) -> None:
    steps = np.abs(np.diff(_along(stitch_mm)))
    assert np.all((steps[:2] >= 0.69) & (steps[:2] <= 1.0))
    assert np.all((steps[-2:] >= 0.69) & (steps[-2:] <= 1.0))


@pytest.mark.parametrize("stitch_mm", np.arange(1.2, 5.0, 0.1).round(1).tolist())
def test_no_hole_of_a_straight_line_is_used_twice(stitch_mm: float) -> None:
    along = _along(stitch_mm)
    assert np.diff(np.sort(along)).min() > 0.3


@pytest.mark.parametrize("length", [1.0, 2.0, 3.0, 4.0, 5.0, 6.0, 8.4, 10.0])
def test_no_hole_of_a_short_line_is_used_twice(length: float) -> None:
    along = _along(2.5, length)
    assert np.diff(np.sort(along)).min() > 0.05 * length / max(1, round(length / 2.5))


def test_nothing_is_sewn_on_the_spot() -> None:
    stitches = _sew([(0, 0), (30, 0), (30, 40)], 2.5)
    assert stitches.sewn_lengths.min() > 0.3


def test_ties_follow_the_line_round_a_corner_and_a_curve() -> None:
    angle = np.linspace(0, 2, 200)
    curve = [(float(3 * np.sin(t)), float(3 - 3 * np.cos(t))) for t in angle]
    way = [(0.0, -0.6), *curve]
    stitches = _sew(way, 2.5)
    off = shapely.distance(shapely.LineString(way), shapely.points(stitches.needle_points))
    assert off.max() <= 0.06


def test_rows_of_ties_are_marked_with_the_stitch_that_leaves_or_enters_them() -> None:
    stitches = _sew([(0, 0), (50, 0)], 2.5)
    assert np.flatnonzero(stitches.tie).tolist() == [
        *range(2, 6),
        *range(len(stitches) - 4, len(stitches)),
    ]


def test_a_tie_does_not_pull_a_needle_point_off_the_others_grid() -> None:
    stitches = _sew([(0, 0), (50, 0)], 2.5)
    plain = stitches.needle_points[[0, *range(4, len(stitches.needle_points) - 4), -1]]
    np.testing.assert_allclose(segment_lengths(plain), 2.5)


def test_holes_of_neighbouring_paths_do_not_mix() -> None:
    runs = (run([(0, 0), (20, 0)]), run([(0, 9), (20, 9)]))
    stitches = sew(runs, Machine(), draws_up=False)
    rows = stitches.needle_points[:, 1]
    assert rows.tolist() == [0.0] * 15 + [9.0] * 15
    assert cKDTree(stitches.needle_points).query_pairs(0.3) == set()
