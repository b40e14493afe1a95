"""Extents, stitch lengths and crowded places, by hand."""

import numpy as np
import pytest

from stitchpath.machine.measure import MOST_IN_A_CELL, Measures, measure, sewn_part
from stitchpath.machine.rows import FileStitches
from stitchpath.model.stitches import Op


def _file(places: list[tuple[int, int]], op: list[int]) -> FileStitches:
    return FileStitches(
        xy_units=np.array(places, dtype=np.int64).reshape(-1, 2),
        op=np.array(op, dtype=np.uint8),
    )


def _measured(read: FileStitches) -> Measures:
    return measure(read, sewn_part(read))


def test_bounds_and_stitch_lengths_are_those_of_the_needle_points() -> None:
    # A 3-4-5 triangle's long side is 5 mm; the jump is no stitch (geometry).
    read = _file(
        [(900, 900), (0, 0), (30, 40), (30, 50), (500, 50), (500, 60)],
        [Op.JUMP, Op.STITCH, Op.STITCH, Op.STITCH, Op.JUMP, Op.STITCH],
    )
    measured = _measured(read)
    assert measured.bounds == (0.0, 0.0, 50.0, 6.0)
    assert measured.size == (50.0, 6.0)
    assert (measured.longest, measured.shortest) == (5.0, 1.0)


def test_one_needle_point_has_no_stitch() -> None:
    measured = _measured(_file([(12, -7)], [Op.STITCH]))
    assert (measured.longest, measured.shortest, measured.size) == (0.0, 0.0, (0.0, 0.0))
    assert measured.crowds.most == 1


def test_crowded_squares_are_counted_from_more_than_the_limit_on() -> None:
    at_limit = [(3, 3)] * MOST_IN_A_CELL
    read = _file([*at_limit, (200, 0)], [Op.STITCH] * (MOST_IN_A_CELL + 1))
    assert _measured(read).crowds.squares == 0
    read = _file([*at_limit, (4, 4), (200, 0)], [Op.STITCH] * (MOST_IN_A_CELL + 2))
    crowds = _measured(read).crowds
    assert (crowds.squares, crowds.most) == (1, MOST_IN_A_CELL + 1)
    assert crowds.at == (1.3, 1.0)  # the square begins at the left and top of the stitches


def test_what_is_sewn_begins_with_the_move_to_it_and_ends_with_the_last_stitch() -> None:
    read = _file(
        [(0, 0), (0, 0), (10, 0), (20, 0), (20, 0), (20, 0), (20, 0)],
        [Op.PAUSE, Op.JUMP, Op.STITCH, Op.STITCH, Op.CUT, Op.JUMP, Op.PAUSE],
    )
    sewn = sewn_part(read)
    assert sewn.op.tolist() == [Op.JUMP, Op.STITCH, Op.STITCH]
    assert sewn.xy.tolist() == [[1, 0], [1, 0], [2, 0]]


def test_cuts_with_nothing_sewn_between_are_one() -> None:
    """A long way in hops, each marked as a cut, is one cut and one move."""
    read = _file(
        [(0, 0), (10, 0), (10, 0), (900, 0), (900, 0), (1800, 0), (1800, 0)],
        [Op.STITCH, Op.STITCH, Op.CUT, Op.JUMP, Op.CUT, Op.JUMP, Op.STITCH],
    )
    sewn = sewn_part(read)
    wanted = [Op.JUMP, Op.STITCH, Op.STITCH, Op.CUT, Op.JUMP, Op.JUMP, Op.STITCH]
    assert sewn.op.tolist() == wanted
    assert sewn.sewn_lengths.tolist() == [1.0]


def test_the_way_after_a_cut_is_a_jump_whatever_its_mark() -> None:
    """Nothing is sewn between a cut and the next needle point, also not over a pause."""
    read = _file(
        [(0, 0), (0, 0), (500, 0), (510, 0), (510, 0), (510, 0), (510, 0), (510, 90)],
        [Op.STITCH, Op.CUT, Op.STITCH, Op.STITCH, Op.CUT, Op.PAUSE, Op.STITCH, Op.STITCH],
    )
    sewn = sewn_part(read)
    assert sewn.op.tolist() == [
        *(Op.JUMP, Op.STITCH, Op.CUT, Op.JUMP, Op.STITCH, Op.STITCH),
        *(Op.CUT, Op.PAUSE, Op.STITCH, Op.STITCH),  # on the spot there is no way
    ]
    assert sewn.xy[3].tolist() == sewn.xy[4].tolist() == [50.0, 0.0]
    assert sewn.sewn_lengths.max() == 9.0


def test_a_jump_on_the_spot_is_none() -> None:
    read = _file(
        [(10, 0), (10, 0), (10, 0), (40, 0), (40, 0)],
        [Op.STITCH, Op.PAUSE, Op.JUMP, Op.JUMP, Op.STITCH],
    )
    assert sewn_part(read).op.tolist() == [Op.JUMP, Op.STITCH, Op.PAUSE, Op.JUMP, Op.STITCH]


def test_nothing_sewn_is_a_callers_bug() -> None:
    empty = _file([(0, 0)], [Op.JUMP])
    with pytest.raises(ValueError, match="sews nothing"):
        sewn_part(empty)


def test_colour_blocks_are_stretches_between_changes_and_stops_are_none() -> None:
    op = np.array([Op.PAUSE, Op.STITCH, Op.PAUSE, Op.STITCH, Op.PAUSE, Op.PAUSE, Op.STITCH])
    places = np.zeros((len(op), 2), dtype=np.int64)
    read = FileStitches(xy_units=places, op=op.astype(np.uint8), stops=np.array([2]))
    assert read.colour_blocks == 2
