"""Which side of the piece lies in the throat."""

import numpy as np
import pytest

from stitchpath.model.hooping import Hooping
from stitchpath.model.piece import Piece
from stitchpath.preview.booklet.facts import tenths, throat_side

_RUG = Piece(name="quilt", width=900, length=1200, outline=np.zeros((1, 2)))


@pytest.mark.parametrize(
    ("turn", "side", "length"),
    [
        (0.0, "right side", "70 cm"),  # 900 - 200
        (90.0, "bottom", "90 cm"),  # the field's right is the piece's bottom: 1200 - 300
        (180.0, "left side", "20 cm"),
        (270.0, "top", "30 cm"),
        (-90.0, "top", "30 cm"),
        (12.0, "right side", "70 cm"),
    ],
)
def test_throat_side_follows_the_turn(turn: float, side: str, length: str) -> None:
    # Geometry: the field's x axis lies on the piece in the direction (cos turn, sin turn).
    hooping = Hooping(number=1, field=(200, 300), centre=(200, 300), turn_deg=turn)
    assert throat_side(hooping, _RUG, "cm") == f"the {side}, {length} of the quilt"


def test_field_beyond_the_edge_leaves_nothing_in_the_throat() -> None:
    hooping = Hooping(number=1, field=(200, 300), centre=(950, 300))
    assert throat_side(hooping, _RUG, "mm") == "the right side, 0 mm of the quilt"


def test_place_in_the_field_has_no_minus_zero() -> None:
    assert tenths((-0.04, 12.34)) == "0.0, 12.3"
