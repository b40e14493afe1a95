"""Placement marks: far apart, on the piece and in the field, round, shared by neighbours."""

from math import dist

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.hoopings.marks import INSET_MM, MOST_MARKS, mark_hoopings, place_marks
from stitchpath.model.hooping import Hooping, Mark
from stitchpath.model.piece import Piece
from stitchpath.pieces.outline import rectangle
from stitchpath.units import MM_PER, Unit
from tests.support.lines import assert_same_line


def piece(width: float = 500, length: float = 600) -> Piece:
    outline = rectangle(0, 0, width, length)
    return Piece(name="quilt", width=width, length=length, outline=outline)


def grid(*, columns: int, rows: int, pitch: tuple[float, float]) -> list[Hooping]:
    """Return fields of 200 x 300 mm in rows, the first one's centre at 110, 160."""
    return [
        Hooping(
            number=number + 1,
            field=(200, 300),
            centre=(110 + number % columns * pitch[0], 160 + number // columns * pitch[1]),
        )
        for number in range(columns * rows)
    ]


def test_a_field_in_the_middle_has_its_marks_near_two_of_its_corners() -> None:
    hooping = Hooping(number=1, field=(200, 300), centre=(250, 300))
    first, second = place_marks(hooping, piece())
    assert (first.name, second.name) == ("A", "B")
    # inset by 5 mm: 155 to 345, 155 to 445; the roundest measures within 10 mm of a corner
    assert (first.piece, second.piece) == ((160, 160), (340, 440))
    assert (first.field, second.field) == ((-90, -140), (90, 140))


def test_a_field_past_the_edge_has_its_marks_on_the_piece() -> None:
    hooping = Hooping(number=1, field=(200, 300), centre=(20, 580))
    first, second = place_marks(hooping, piece())
    assert (first.piece, second.piece) == ((10, 440), (110, 590))


@pytest.mark.parametrize("turn_deg", [0.0, 90.0, 180.0, 270.0])
def test_a_marks_two_places_are_one_place(turn_deg: float) -> None:
    hooping = Hooping(number=1, field=(200, 300), centre=(210, 333), turn_deg=turn_deg)
    for mark in place_marks(hooping, piece()):
        assert_same_line(hooping.to_piece(np.array([mark.field])), [mark.piece])
        assert np.all(np.abs(mark.field) <= (95, 145))


def test_neighbours_whose_fields_overlap_share_a_mark() -> None:
    hoopings = grid(columns=2, rows=1, pitch=(180, 0))
    first, second = mark_hoopings(hoopings, piece(), unit="mm")
    shared = {mark.name for mark in first.marks} & {mark.name for mark in second.marks}
    assert len(shared) == 1


def test_four_fields_share_the_mark_between_them_and_name_it_alike() -> None:
    hoopings = mark_hoopings(grid(columns=2, rows=2, pitch=(180, 280)), piece(), unit="mm")
    # their windows have 195 to 205 across and 295 to 305 along in common: 200, 300
    names = {
        mark.name for one in hoopings for mark in one.marks if mark.piece == (200.0, 300.0)
    }
    assert names == {"B"}
    assert all("B" in [mark.name for mark in one.marks] for one in hoopings)


def test_fields_that_hardly_overlap_have_marks_of_their_own() -> None:
    hoopings = grid(columns=2, rows=1, pitch=(194, 0))  # 6 mm, less than two insets
    first, second = mark_hoopings(hoopings, piece(), unit="mm")
    names = [mark.name for one in (first, second) for mark in one.marks]
    assert len(set(names)) == len(names) == 4


def test_marks_of_an_earlier_stage_are_used_and_their_names_are_taken() -> None:
    known = [Mark(name="A", piece=(20, 20), field=(0, 0))]
    hooping = Hooping(number=1, field=(200, 300), centre=(110, 160))
    (marked,) = mark_hoopings([hooping], piece(), unit="mm", known=known)
    assert marked.marks[0].piece == (20.0, 20.0)
    assert [mark.name for mark in marked.marks] == ["A", "B"]


def test_no_hooping_has_more_marks_than_are_of_use() -> None:
    known = [Mark(name=f"M{n}", piece=(30 + 20 * n, 160), field=(0, 0)) for n in range(9)]
    hooping = Hooping(number=1, field=(200, 300), centre=(110, 160))
    (marked,) = mark_hoopings([hooping], piece(), unit="mm", known=known)
    assert len(marked.marks) == MOST_MARKS


def test_names_go_on_after_z() -> None:
    hoopings = grid(columns=6, rows=6, pitch=(194, 294))
    marked = mark_hoopings(hoopings, piece(1500, 2200), unit="mm")
    names = list(dict.fromkeys(mark.name for one in marked for mark in one.marks))
    assert names[25:28] == ["Z", "AA", "AB"]


def test_no_hoopings_have_no_marks() -> None:
    assert mark_hoopings([], piece(), unit="mm") == ()


def test_a_field_that_holds_the_smallest_piece_still_has_two_marks() -> None:
    hooping = Hooping(number=1, field=(200, 300), centre=(10, 10))
    first, second = place_marks(hooping, piece(20, 20))
    assert dist(first.piece, second.piece) >= 10


def test_two_marks_are_found_where_one_known_mark_is_near_every_corner() -> None:
    known = [Mark(name="A", piece=(10, 10), field=(0, 0))]
    hooping = Hooping(number=1, field=(21, 21), centre=(10, 10))
    (marked,) = mark_hoopings([hooping], piece(20, 20), unit="mm", known=known)
    assert dist(marked.marks[0].piece, marked.marks[1].piece) > 1


@given(
    shift=st.tuples(st.floats(-40, 40), st.floats(-40, 40)),
    pitch=st.tuples(st.floats(150, 199), st.floats(220, 299)),
    unit=st.sampled_from(["mm", "cm", "in"]),
)
def test_marks_are_far_apart_in_every_field_and_on_the_piece(
    shift: tuple[float, float], pitch: tuple[float, float], unit: Unit
) -> None:
    """At least seven tenths of what the window's diagonal allows (own rule, geometry)."""
    quilt = piece(700, 900)
    hoopings = [
        Hooping(
            number=one.number,
            field=one.field,
            centre=(one.centre[0] + shift[0], one.centre[1] + shift[1]),
        )
        for one in grid(columns=3, rows=3, pitch=pitch)
    ]
    places: dict[str, tuple[float, float]] = {}
    for one in mark_hoopings(hoopings, quilt, unit=unit):
        low = np.maximum(one.corners.min(axis=0), 0) + INSET_MM
        high = np.minimum(one.corners.max(axis=0), (700, 900)) - INSET_MM
        first, second = one.marks[:2]
        assert dist(first.piece, second.piece) >= 0.7 * dist(low, high)
        for mark in one.marks:
            assert np.all(low - 1e-6 <= mark.piece)
            assert np.all(mark.piece <= high + 1e-6)
            assert places.setdefault(mark.name, mark.piece) == mark.piece
    assert len(set(places.values())) == len(places)


@given(
    centre=st.tuples(st.floats(120, 380), st.floats(170, 430)),
    unit=st.sampled_from(["mm", "cm", "in"]),
)
def test_marks_of_a_lone_field_lie_on_round_measures(
    centre: tuple[float, float], unit: Unit
) -> None:
    """Whole mm, or sixteenths of an inch, from the left and the top edge."""
    hooping = Hooping(number=1, field=(200, 300), centre=centre)
    (marked,) = mark_hoopings([hooping], piece(), unit=unit)
    step = MM_PER["in"] / 16 if unit == "in" else 1.0
    for mark in marked.marks:
        steps = np.array(mark.piece) / step
        assert np.allclose(steps, np.rint(steps), atol=1e-6)
