"""Bounds on the number of hoopings: never above what is needed, and tight where it is easy."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.hoopings.bound import counting_bound, find_spots, spots_along, step_of, thinned
from stitchpath.hoopings.grid import even_grid
from stitchpath.hoopings.needs import find_needs
from stitchpath.hoopings.places import Kind
from stitchpath.model.line import Line
from tests.strategies import polylines
from tests.support.covers import kind, turnable
from tests.support.lines import line

ROOM_MM = 6.0


def _bound(lines: list[Line], kinds: tuple[Kind, ...]) -> int:
    needs = find_needs(tuple(lines), kinds, room_mm=ROOM_MM)
    spots = find_spots(needs.loose, needs, kinds)
    return counting_bound(spots, kinds)


@pytest.mark.parametrize(("length", "least"), [(200, 1), (201, 2), (394, 2), (590, 4)])
def test_bound_of_a_straight_line_is_what_it_takes(length: float, least: int) -> None:
    """Fields of 200 reach 200, 394, 588 of it."""
    assert _bound([line([(0, 0), (length, 0)])], (kind(200, 200),)) == least


def test_bound_of_a_lattice_in_square_fields_is_its_grid() -> None:
    """3 x 3 squares of 200, overlapping by 6, on 560."""
    lines = [line([(0, y), (560, y)]) for y in range(0, 561, 40)]
    lines += [line([(x, 0), (x, 560)]) for x in range(0, 561, 40)]
    assert _bound(lines, (kind(200, 200),)) == 9


def test_spots_are_a_whole_number_to_a_field() -> None:
    """A field of 206 reaches 200 past a spot of 6; two spots 100 apart would make it three."""
    kinds = turnable(206, 306)
    lines = (line([(0, 0), (1000, 0)]),)
    needs = find_needs(lines, kinds, room_mm=ROOM_MM)
    assert step_of(2, needs, kinds) == pytest.approx(100, rel=2e-3)
    assert step_of(2, needs, kinds) > 100
    spots = spots_along(lines, needs, step_of(2, needs, kinds))
    assert (np.diff(spots[:, 0])[1:-1] > 100).all()
    assert len(spots) == 10


def test_lines_are_passed_over_where_there_were_too_many_spots() -> None:
    """Ten lines of 100 have 10 spots and an end each at a step of 10: 110 in all."""
    lines = tuple(line([(0, y), (100, y)]) for y in range(10))
    assert thinned(lines, 10, most=110) == lines
    assert thinned(lines, 10, most=109) == lines[::2]
    assert thinned(lines, 10, most=11) == lines[::10]


def test_motifs_apart_take_a_field_each() -> None:
    corners = [(0, 0), (300, 0), (0, 300)]
    lines = [
        Line(points=line([(x, y), (x + 50, y + 50)]).points, kind=line([(0, 0), (1, 0)]).kind,
             stitch_mm=2.5, motif=number)
        for number, (x, y) in enumerate(corners)
    ]  # fmt: skip
    assert _bound(lines, turnable(100, 160)) == 3


@given(points=st.lists(polylines(), min_size=1, max_size=4))
def test_no_bound_is_above_what_a_grid_takes(points: list) -> None:  # type: ignore[type-arg]
    lines = [line(each) for each in points]
    one = kind(90, 90)
    needs = find_needs(tuple(lines), (one,), room_mm=ROOM_MM)
    grid = even_grid(needs, one, (one,), room_mm=ROOM_MM)
    assert 1 <= _bound(lines, (one,)) <= len(grid)
