"""Scaled runs: new stitches of the run's own length, corners kept, its old ties left out."""

import numpy as np

from stitchpath.model.line import run_of
from stitchpath.model.machine import Machine
from stitchpath.sewing.resample import resampled
from tests.support.file_lines import file_line
from tests.support.lines import line

MACHINE = Machine(shortest_stitch=1.0, longest_stitch=7.0)


def test_lines_that_are_not_scaled_stay_the_same_objects() -> None:
    lines = (line([(0, 0), (9, 0)]), file_line([(0, 0), (3, 0), (9, 0)]))
    assert resampled(lines, MACHINE) is lines


def test_straight_run_of_twice_the_length_has_twice_the_stitches() -> None:
    """Eight stitches of 3 mm, scaled to 48 mm: sixteen of 3 mm (geometry)."""
    points = [(6 * x, 0) for x in range(9)]
    (made,) = resampled((file_line(points, scale=2.0, stitch_mm=3.0),), MACHINE)
    assert np.allclose(np.diff(made.points[:, 0]), 3.0)
    assert len(made.points) == 17
    assert not run_of(made).is_scaled


def test_corners_keep_a_needle_point() -> None:
    corner = [(0, 0), (5, 0), (10, 0), (10, 5), (10, 10)]
    (made,) = resampled((file_line(corner, scale=1.7, stitch_mm=2.9),), MACHINE)
    assert [10.0, 0.0] in made.points.tolist()
    assert made.points[[0, -1]].tolist() == [[0, 0], [10, 10]]


def test_ties_of_the_file_are_left_out() -> None:
    """Stitches of 0.8 mm at both ends, four times as large."""
    tied = np.array([(0, 0), (0.8, 0), (0, 0), (3, 0), (6, 0), (9, 0), (8.2, 0), (9, 0)]) * 4
    (made,) = resampled((file_line(tied, scale=4.0, stitch_mm=3.0),), MACHINE)
    assert np.allclose(np.diff(made.points[:, 0]), 3.0)
    assert len(made.points) == 13


def test_a_stop_within_a_tie_of_the_file_is_kept() -> None:
    tied = np.array([(0, 0), (0.8, 0), (0, 0), (3, 0), (6, 0), (9, 0), (8.2, 0), (9, 0)]) * 4
    (made,) = resampled((file_line(tied, paused=[1], scale=4.0),), MACHINE)
    assert run_of(made).paused.sum() == 1


def test_moves_and_stops_stay_between_the_parts_they_were_between() -> None:
    points = [(0, 0), (6, 0), (12, 0), (20, 0), (26, 0), (32, 0)]
    scaled = file_line(points, moved=[3], paused=[5], scale=2.0, stitch_mm=3.0)
    (made,) = resampled((scaled,), MACHINE)
    assert made.points[:, 0].tolist() == [0, 3, 6, 9, 12, 20, 23, 26, 29, 32]
    assert np.flatnonzero(run_of(made).moved).tolist() == [5]
    assert np.flatnonzero(run_of(made).paused).tolist() == [8]


def test_stitches_keep_to_the_machines_limits() -> None:
    points = [(0, 0), (30, 0), (60, 0)]
    (made,) = resampled((file_line(points, scale=3.0, stitch_mm=11.0),), MACHINE)
    assert np.diff(made.points[:, 0]).max() <= 7.0


def test_needle_points_between_moves_stay_and_so_does_a_run_on_the_spot() -> None:
    hops = file_line([(0, 0), (9, 0), (18, 0)], moved=[1, 2], scale=3.0)
    (made,) = resampled((hops,), MACHINE)
    assert made.points.tolist() == [[0, 0], [9, 0], [18, 0]]
    assert run_of(made).moved.tolist() == [False, True, True]
    spot = file_line([(4, 4), (4, 4), (4, 4)], scale=3.0)
    (made,) = resampled((spot,), MACHINE)
    assert made.points.tolist() == [[4, 4], [4, 4]]
    assert not run_of(made).is_scaled
