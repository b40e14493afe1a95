"""What has to be reached: cores together are the lines, pieces have half the overlap more."""

import numpy as np
import pytest
from numpy.typing import NDArray

from stitchpath.hoopings.needs import MOST_PIECES, Needs, find_needs, fits_one
from stitchpath.model.line import Line, LineKind
from tests.support.covers import kind, turnable
from tests.support.lines import line

ROOM_MM = 6.0


def _needs(lines: list[Line], sides: tuple[float, float] = (126, 186)) -> Needs:
    return find_needs(tuple(lines), turnable(*sides), room_mm=ROOM_MM)


def _lengths(needs: Needs) -> NDArray[np.float64]:
    """Return how long the cores of level lines are, mm."""
    return needs.cores[:, 2] - needs.cores[:, 0]


def test_pieces_are_a_whole_share_of_what_fields_reach() -> None:
    """Less the overlap they reach 120 and 180: a fifth of 120 does not divide 180, 20 does."""
    needs = _needs([line([(0, 0), (400, 0)])])
    assert _lengths(needs)[1:-1] == pytest.approx(20)


def test_cores_follow_on_one_another_and_pieces_overlap() -> None:
    needs = _needs([line([(0, 0), (400, 0)])])
    assert needs.cores[0, 0] == 0
    assert needs.cores[-1, 2] == 400
    assert needs.cores[1:, 0].tolist() == needs.cores[:-1, 2].tolist()
    np.testing.assert_allclose(needs.pieces[1:, 0], needs.cores[1:, 0] - 3)
    np.testing.assert_allclose(needs.pieces[:-1, 2], needs.cores[:-1, 2] + 3)
    assert needs.pieces[0, 0] == 0
    assert needs.pieces[-1, 2] == 400


def test_a_field_flush_with_a_lines_start_ends_with_a_piece() -> None:
    """126 - 3 = 123 of the line are sewn there: a first piece of 23, then 20 each."""
    needs = _needs([line([(0, 0), (400, 0)])])
    assert 123 in needs.cores[:, 2].round(6).tolist()


def test_lines_are_cut_up_anew_from_corners() -> None:
    needs = _needs([line([(0, 0), (50, 0), (50, 200)])])
    assert (50, 0) in {tuple(corner) for corner in needs.cores[:, :2].tolist()}


def test_many_lines_are_cut_more_coarsely() -> None:
    needs = _needs([line([(0, y), (9000, y)]) for y in range(0, 9000, 50)])
    assert len(needs.pieces) <= MOST_PIECES + 180
    assert _lengths(needs).max() > 400


def test_whole_parts_are_held_with_the_overlap_beside_them() -> None:
    given = line([(0, 0), (30, 0), (30, 20), (0, 0), (0, 100)], whole=((0, 3),))
    needs = _needs([given])
    assert needs.wholes.tolist() == [[0, 0, 30, 20]] or needs.wholes[0].tolist() == [
        0,
        0,
        30,
        20,
    ]
    assert needs.wholes.shape == (1, 4)


def _stroke(start: tuple[float, float], end: tuple[float, float], motif: int) -> Line:
    return Line(
        points=np.array([start, end]), kind=LineKind.QUILTING, stitch_mm=2.5, motif=motif
    )


def test_a_motif_is_one_whole() -> None:
    needs = _needs([_stroke((0, 0), (40, 0), 1), _stroke((10, 30), (60, 50), 1)])
    assert needs.wholes.tolist() == [[0, 0, 60, 50]]
    assert len(needs.cores) == 0


def test_of_a_motif_larger_than_the_fields_each_stroke_that_fits_is_whole() -> None:
    """Writing of 300 in fields of 126 x 186: letters stay whole, the word does not."""
    strokes = [_stroke((0, 0), (40, 50), 1), _stroke((250, 0), (300, 50), 1)]
    needs = _needs([*strokes, _stroke((0, 60), (400, 60), 1)])
    assert needs.wholes.tolist() == [[0, 0, 40, 50], [250, 0, 300, 50]]
    assert needs.cores[-1, 2] == 400


def test_a_box_fits_upright_or_turned() -> None:
    assert fits_one(np.array([0.0, 0, 180, 100]), turnable(126, 186))
    assert not fits_one(np.array([0.0, 0, 180, 100]), (kind(126, 186),))
