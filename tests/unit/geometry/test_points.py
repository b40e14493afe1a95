"""Points: what is taken for them, and how long lines are."""

import numpy as np
import pytest

from stitchpath.geometry.points import (
    extremes,
    frozen_points,
    in_steps,
    parts_of,
    path_length,
    segment_lengths,
    turns_between,
)


def test_points_are_a_copy_that_cannot_be_written() -> None:
    given = np.array([[0.0, 0.0], [1.0, 2.0]])
    points = frozen_points(given)
    given[0, 0] = 9
    assert points[0, 0] == 0
    with pytest.raises(ValueError, match="read-only"):
        points[0, 0] = 9


@pytest.mark.parametrize("wrong", [[1.0, 2.0], [[1.0, 2.0, 3.0]], [[[1.0, 2.0]]]])
def test_rows_that_are_not_x_and_y_are_no_points(wrong: list[float]) -> None:
    with pytest.raises(ValueError, match="shape"):
        frozen_points(wrong)


@pytest.mark.parametrize("wrong", [np.nan, np.inf])
def test_endless_numbers_are_no_points(wrong: float) -> None:
    with pytest.raises(ValueError, match="finite"):
        frozen_points([[0.0, wrong]])


def test_a_right_triangle_of_3_4_5_is_5_long_on_its_long_side() -> None:
    """Euclid, Elements I.47."""
    triangle = np.array([[0.0, 0.0], [4.0, 3.0], [4.0, 0.0], [0.0, 0.0]])
    assert segment_lengths(triangle).tolist() == [5, 3, 4]
    assert path_length(triangle) == 12


def test_a_single_point_has_no_length() -> None:
    assert path_length(np.array([[3.0, 4.0]])) == 0


def test_an_array_that_nobody_can_write_to_is_not_copied() -> None:
    points = frozen_points([[0.0, 0.0], [1.0, 2.0]])
    assert frozen_points(points) is points


def test_a_read_only_view_of_an_array_that_may_change_is_copied() -> None:
    given = np.zeros((3, 2))
    view = given[:2]
    view.setflags(write=False)
    points = frozen_points(view)
    given[0, 0] = 9
    assert points[0, 0] == 0


def test_in_parts_lengths_and_steps_are_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    points = np.cumsum(np.random.default_rng(5).normal(0, 9, (23, 2)), axis=0)
    lengths, steps = segment_lengths(points), in_steps(points)
    monkeypatch.setattr("stitchpath.geometry.points._AT_A_TIME", 4)
    assert np.array_equal(segment_lengths(points), lengths)
    assert np.array_equal(in_steps(points), steps)


def test_parts_make_up_all_rows(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("stitchpath.geometry.points._AT_A_TIME", 4)
    assert [(part.start, part.stop) for part in parts_of(9)] == [(0, 4), (4, 8), (8, 9)]
    assert list(parts_of(-1)) == []


def test_turns_are_told_either_way_and_over_the_back() -> None:
    """Headings of 150 and -150 degrees lie 60 apart, not 300. Geometry."""
    headings = np.radians([0.0, 90.0, 45.0, 150.0, -150.0, 30.0])
    steps = np.array([1, 9, 0.1, 3, 2, 5]) * np.array([np.cos(headings), np.sin(headings)])
    turns = np.degrees(turns_between(steps.T))
    assert turns == pytest.approx([90, 45, 105, 60, 180])


@pytest.mark.parametrize("count", [0, 1])
def test_fewer_than_two_steps_turn_nowhere(count: int) -> None:
    assert turns_between(np.ones((count, 2))).shape == (0,)


def test_extremes_are_the_corners_of_the_box_round_points() -> None:
    """Geometry: a point of its own gives each of the four."""
    low, high = extremes(np.array([[2.0, -3.0], [-1.0, 4.0], [5.0, 0.0], [0.0, 7.0]]))
    assert low.tolist() == [-1.0, -3.0]
    assert high.tolist() == [5.0, 7.0]


def test_extremes_of_one_point_are_the_point() -> None:
    low, high = extremes(np.array([[2, -3]]))
    assert low.tolist() == high.tolist() == [2, -3]
