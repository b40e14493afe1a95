"""Segments on one another."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from stitchpath.geometry.overlaps import find_overlaps


def _turned(segments: list[list[float]], degrees: float) -> NDArray[np.float64]:
    """Return level segments, x from and to at one y, turned round the origin."""
    turn = np.radians(degrees)
    axis, side = np.array([np.cos(turn), np.sin(turn)]), np.array([-np.sin(turn), np.cos(turn)])
    return np.array([[x0 * axis + y * side, x1 * axis + y * side] for x0, x1, y in segments])


@pytest.mark.parametrize("degrees", [0.0, 90.0, 45.0, 180.0, 60.0, 17.3, 179.999, -90.0])
def test_three_on_one_another_are_found_at_any_turn(degrees: float) -> None:
    """0 to 10, 4 to 20 and back from 8 to 2: all three from 4 to 8 (by hand)."""
    segments = _turned([[0, 10, 70], [4, 20, 70], [8, 2, 70], [0, 10, 71]], degrees)
    (found,) = find_overlaps(segments, most=2)
    assert found.depth == 3
    assert found.length == pytest.approx(4)
    assert found.middle == pytest.approx(_turned([[6, 6, 70]], degrees)[0, 0])


def test_what_crosses_or_only_touches_lies_not_on_one_another() -> None:
    row = [[[0.0, 0.0], [5.0, 0.0]], [[5.0, 0.0], [9.0, 0.0]], [[3.0, -4.0], [3.0, 4.0]]]
    assert find_overlaps(np.array(row), most=1) == []


def test_no_segments_and_segments_without_length_count_for_nothing() -> None:
    assert find_overlaps(np.empty((0, 2, 2)), most=1) == []
    assert find_overlaps(np.zeros((3, 2, 2)), most=1) == []


def test_the_deepest_comes_first_then_the_longest() -> None:
    rows: list[list[float]] = [
        [0, 4, 0],
        [0, 4, 0],
        [10, 19, 0],
        [10, 19, 0],
        [30, 31, 0],
        [30, 31, 0],
        [30, 31, 0],
    ]
    found = find_overlaps(_turned(rows, 0), most=1)
    assert [(one.depth, round(one.length, 6)) for one in found] == [(3, 1), (2, 9), (2, 4)]


@given(
    ends=st.lists(
        st.tuples(st.integers(0, 60), st.integers(1, 30), st.integers(0, 2)),
        min_size=1,
        max_size=12,
    ),
    degrees=st.floats(-180, 180),
)
def test_all_that_is_gone_over_twice_is_as_long_as_shapely_says(
    ends: list[tuple[int, int, int]], degrees: float
) -> None:
    """What is left of each line when the union of all before is taken away, 3 mm apart."""
    rows = [[float(start), float(start + length), 3.0 * row] for start, length, row in ends]
    lines = [shapely.LineString([(x0, y), (x1, y)]) for x0, x1, y in rows]
    once = shapely.union_all(lines).length
    depths = [one.depth * one.length for one in find_overlaps(_turned(rows, degrees), most=0)]
    lengths = [one.length for one in find_overlaps(_turned(rows, degrees), most=0)]
    assert sum(lengths) == pytest.approx(once)
    assert sum(depths) == pytest.approx(sum(line.length for line in lines))
