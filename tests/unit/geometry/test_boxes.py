"""Boxes and lines: bounds of stretches, and what of a line lies in which box. Geometry."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.geometry.boxes import bounds_of, stretch_boxes, stretches_in
from stitchpath.geometry.paths import cut_path
from stitchpath.geometry.points import Points, path_length
from tests.strategies import polylines

CORNER = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0]])


def _rows(lines: list[Points], boxes: list[list[float]]) -> list[tuple[int, int, float, float]]:
    found = stretches_in(lines, np.array(boxes, dtype=np.float64))
    columns = found.line, found.box, found.start.round(5), found.end.round(5)
    return list(zip(*(column.tolist() for column in columns), strict=True))


def test_bounds_are_those_of_each_line() -> None:
    assert bounds_of([CORNER, CORNER + 5]).tolist() == [[0, 0, 10, 10], [5, 5, 15, 15]]
    assert bounds_of([]).shape == (0, 4)


def test_box_of_a_stretch_holds_its_ends_and_the_corner_between() -> None:
    bounds = np.array([[5, 15], [2, 4], [-3, 99], [10, 10]])
    assert stretch_boxes(CORNER, bounds).tolist() == [
        [5, 0, 10, 5],
        [2, 0, 4, 0],
        [0, 0, 10, 10],
        [10, 0, 10, 0],
    ]


@given(line=polylines(), shares=st.lists(st.tuples(*[st.floats(0, 1)] * 2), min_size=1))
def test_boxes_of_stretches_are_those_of_the_parts_cut_out(
    line: Points, shares: list[tuple[float, float]]
) -> None:
    bounds = np.sort(np.array(shares), axis=1) * path_length(line)
    expected = bounds_of(cut_path(line, bounds))
    np.testing.assert_allclose(stretch_boxes(line, bounds), expected, atol=1e-5)


def test_a_line_through_two_boxes_has_a_stretch_in_each() -> None:
    assert _rows([np.array([[0.0, 5.0], [30.0, 5.0]])], [[0, 0, 12, 10], [8, 0, 40, 10]]) == [
        (0, 0, 0, 12),
        (0, 1, 8, 30),
    ]


def test_a_stretch_goes_on_over_a_vertex() -> None:
    assert _rows([CORNER], [[5, -1, 20, 4]]) == [(0, 0, 5, 14)]


def test_a_line_that_leaves_a_box_and_comes_back_has_two_stretches() -> None:
    hairpin = np.array([[0.0, 0.0], [20.0, 0.0], [20.0, 2.0], [0.0, 2.0]])
    assert _rows([hairpin], [[0, -1, 10, 3]]) == [(0, 0, 0, 10), (0, 0, 32, 42)]


def test_a_line_along_a_border_lies_in_the_box() -> None:
    assert _rows([np.array([[0.0, 10.0], [10.0, 10.0]])], [[0, 0, 10, 10]]) == [(0, 0, 0, 10)]


def test_lines_outside_have_none() -> None:
    assert _rows([CORNER], [[20, 20, 30, 30]]) == []


@given(line=polylines(), corner=st.tuples(*[st.integers(-200, 200)] * 2))
def test_stretches_are_as_long_as_shapely_says(line: Points, corner: tuple[int, int]) -> None:
    """Off the places where many of the lines run: a border may or may not belong to a box."""
    left, top = corner[0] + 1 / 3, corner[1] + 1 / 7
    box = shapely.box(left, top, left + 90, top + 60)
    found = stretches_in([line], np.array([box.bounds]))
    segments = shapely.linestrings(np.stack([line[:-1], line[1:]], axis=1))
    expected = shapely.length(shapely.intersection(segments, box)).sum()
    assert (found.end - found.start).sum() == pytest.approx(expected, abs=1e-4)
