"""Arrays as SVG path data."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from svgwrite.data.svgparser import is_valid_pathdata

from stitchpath.geometry.points import Points
from stitchpath.preview.path_data import dots_data, lines_data
from stitchpath.preview.polylines import Polylines
from tests.support.svg_reader import parsed

places = st.tuples(st.floats(-10_000, 10_000), st.floats(-10_000, 10_000))
lines = st.lists(st.lists(places, min_size=1, max_size=8).map(np.array), max_size=5)


@given(lines, st.booleans(), st.sampled_from([10, 100]))
def test_lines_are_read_back_within_half_a_step(
    drawn: list[Points], closed: bool, per_mm: int
) -> None:
    data = lines_data(Polylines.of(drawn), per_mm=per_mm, closed=closed)
    read = parsed(data)
    assert [len(line) for line in read] == [len(line) for line in drawn]
    for got, wanted in zip(read, drawn, strict=True):
        assert np.abs(got / per_mm - wanted).max() <= 0.5 / per_mm + 1e-9
    assert data.count("z") == (len(drawn) if closed else 0)


@given(lines, st.booleans())
def test_data_keeps_the_grammar_of_svg(drawn: list[Points], closed: bool) -> None:
    # Source of the grammar: SVG 1.1, 8.3.9, as svgwrite's own parser has it.
    data = lines_data(Polylines.of(drawn), per_mm=10, closed=closed)
    assert data == "" or is_valid_pathdata(data)


@given(st.lists(places, min_size=1, max_size=20).map(np.array))
def test_dots_are_lines_of_no_length(drawn: Points) -> None:
    data = dots_data(drawn, per_mm=10)
    assert is_valid_pathdata(data)
    read = parsed(data)
    assert len(read) == len(drawn)
    for got, wanted in zip(read, drawn, strict=True):
        assert (got[0] == got[1]).all()
        assert np.abs(got[0] / 10 - wanted).max() <= 0.05 + 1e-9


def test_nothing_gives_no_data() -> None:
    assert lines_data(Polylines.of([]), per_mm=10) == ""
    assert dots_data(np.empty((0, 2)), per_mm=10) == ""


def test_a_long_path_does_not_drift() -> None:
    steps = np.random.default_rng(7).normal(0, 1.3, (100_000, 2))
    walk = np.cumsum(steps, axis=0)
    (read,) = parsed(lines_data(Polylines.of([walk]), per_mm=10))
    assert np.abs(read / 10 - walk).max() <= 0.05 + 1e-9


@pytest.mark.parametrize("reach", [1.0, 9.9, 10.0, 99.9, 100.0, 999.9, 1_000.0, 9_000.0])
def test_short_and_long_steps_are_written_alike(reach: float) -> None:
    # Short steps come from a table of numbers, long ones are written one by one.
    zigzag = np.array([[0.0, 0.0], [reach, -reach]] * 400)
    (read,) = parsed(lines_data(Polylines.of([zigzag]), per_mm=10))
    assert (read / 10 == zigzag).all()


def test_a_long_step_among_short_ones_is_written_as_it_is() -> None:
    cells = np.array(
        [[0, 0], [9_999, -9_999], [20_000, 12_345_678], [20_001, 12_345_677]] * 300
    )
    (read,) = parsed(lines_data(Polylines.of([cells / 10]), per_mm=10))
    assert (read == cells).all()


@pytest.mark.parametrize("longest", [99, 999, 9_999, 99_999, 9_999_999, 99_999_999])
def test_many_points_are_written_as_few_are(longest: int) -> None:
    """All at once through tables, and line after line in a format of Python's."""
    cells = np.random.default_rng(3).integers(-longest // 2, longest // 2, (900, 2))
    corners = cells.astype(np.float64)
    parts = np.split(corners, 300)
    many = lines_data(Polylines.of(parts), per_mm=1, closed=True)
    few = lines_data(Polylines.of(parts[:50]), per_mm=1, closed=True)
    assert many.startswith(few)
    assert dots_data(corners, per_mm=1).startswith(dots_data(corners[:50], per_mm=1))


@pytest.mark.parametrize("closed", [False, True])
def test_what_is_written_part_by_part_is_as_if_written_at_once(closed: bool) -> None:
    # Parts are of 65,536 points: here a triangle lies across each border.
    corners = np.random.default_rng(2).integers(-900, 900, (3 * 44_000, 2))
    lines = Polylines(points=corners / 10, starts=np.arange(0, len(corners), 3))
    data = lines_data(lines, per_mm=10, closed=closed)
    read = parsed(data)
    assert (np.concatenate(read) == corners).all()
    assert [len(line) for line in read] == [3] * len(lines)
    assert data.count("z") == (len(lines) if closed else 0)
