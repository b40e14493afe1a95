"""Pieces on cloth: none overlaps, none leaves the cloth, and little is wasted."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.estimate.cloth_layout import Laid, fits, lay_out
from stitchpath.model.estimate import LaidPiece, Rectangle
from tests.strategies import cloth_pieces

WIDTH = 1000.0


def _piece(width: float, length: float, *, may_turn: bool = True) -> Rectangle:
    return Rectangle(what="piece", width=width, length=length, may_turn=may_turn)


def _overlap(one: LaidPiece, other: LaidPiece) -> float:
    across = min(one.x + one.width, other.x + other.width) - max(one.x, other.x)
    along = min(one.y + one.length, other.y + other.length) - max(one.y, other.y)
    return min(across, along)


def _assert_sound(laid: Laid, pieces: list[Rectangle]) -> None:
    sizes = sorted(tuple(sorted((piece.width, piece.length))) for piece in pieces)
    assert sorted(tuple(sorted((one.width, one.length))) for one in laid.pieces) == sizes
    assert all(_overlap(one, other) < 1e-3 for one, other in combinations(laid.pieces, 2))
    for one in laid.pieces:
        assert one.x >= 0
        assert one.y >= 0
        assert one.x + one.width <= WIDTH + 1e-3
        assert one.y + one.length <= laid.length + 1e-3


@given(pieces=cloth_pieces(WIDTH, most=9))
def test_pieces_lie_on_the_cloth_and_on_nothing_else(pieces: list[Rectangle]) -> None:
    _assert_sound(lay_out(pieces, WIDTH), pieces)


@given(pieces=cloth_pieces(WIDTH, most=6, turning=st.just(value=False)))
def test_a_print_with_an_up_is_not_turned(pieces: list[Rectangle]) -> None:
    laid = lay_out(pieces, WIDTH)
    assert sorted((one.width, one.length) for one in laid.pieces) == sorted(
        (piece.width, piece.length) for piece in pieces
    )


def test_two_panels_lie_side_by_side() -> None:
    assert lay_out([_piece(500, 1800), _piece(500, 1800)], WIDTH).length == 1800


def test_a_piece_is_turned_where_that_saves_cloth() -> None:
    assert lay_out([_piece(300, 900)], WIDTH).length == 300
    assert lay_out([_piece(300, 900, may_turn=False)], WIDTH).length == 900


def test_what_fills_the_width_takes_its_length() -> None:
    strips = [_piece(WIDTH, 63.5) for _ in range(7)]
    assert lay_out(strips, WIDTH).length == pytest.approx(7 * 63.5)


def test_no_piece_takes_no_cloth() -> None:
    assert lay_out([], WIDTH) == Laid(pieces=(), length=0.0)


def test_a_piece_that_is_too_wide_is_a_bug_of_the_caller() -> None:
    wide = _piece(1100, 1200)
    assert not fits(wide, WIDTH)
    with pytest.raises(ValueError, match="wider than the cloth"):
        lay_out([wide], WIDTH)


def test_very_many_pieces_are_laid_with_few_tries() -> None:
    pieces = [_piece(70 + 3 * n, 150 + 7 * n) for n in range(40)]
    laid = lay_out(pieces, WIDTH)
    _assert_sound(laid, pieces)
    area = sum(piece.width * piece.length for piece in pieces)
    assert laid.length < 1.25 * area / WIDTH
