"""Placement marks: far apart, on the piece and in the field."""

import numpy as np
import pytest

from stitchpath.hoopings.marks import place_marks
from stitchpath.model.hooping import Hooping
from stitchpath.model.piece import Piece
from stitchpath.pieces.outline import rectangle
from tests.support.lines import assert_same_line

PIECE = Piece(name="quilt", width=500, length=600, outline=rectangle(0, 0, 500, 600))


def test_a_field_in_the_middle_has_its_marks_near_two_of_its_corners() -> None:
    hooping = Hooping(number=1, field=(200, 300), centre=(250, 300))
    first, second = place_marks(hooping, PIECE)
    assert (first.name, second.name) == ("A", "B")
    assert (first.piece, second.piece) == ((155, 155), (345, 445))
    assert (first.field, second.field) == ((-95, -145), (95, 145))


def test_a_field_past_the_edge_has_its_marks_on_the_piece() -> None:
    hooping = Hooping(number=1, field=(200, 300), centre=(20, 580))
    first, second = place_marks(hooping, PIECE)
    assert (first.piece, second.piece) == ((5, 435), (115, 595))


@pytest.mark.parametrize("turn_deg", [0.0, 90.0, 180.0, 270.0])
def test_a_marks_two_places_are_one_place(turn_deg: float) -> None:
    hooping = Hooping(number=1, field=(200, 300), centre=(210, 333), turn_deg=turn_deg)
    for mark in place_marks(hooping, PIECE):
        assert_same_line(hooping.to_piece(np.array([mark.field])), [mark.piece])
        assert np.all(np.abs(mark.field) <= (95, 145))
