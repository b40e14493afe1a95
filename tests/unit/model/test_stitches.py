"""Stitches: which rows are stitches, however many rows are looked at together."""

from collections.abc import Sequence

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.model.stitches import Op, Stitches


def _stitches(op: Sequence[int]) -> Stitches:
    xy = np.cumsum(np.ones((len(op), 2)), axis=0)
    return Stitches(xy=xy, op=np.array(op, dtype=np.uint8), tie=np.zeros(len(op), dtype=bool))


def test_a_jump_parts_two_needle_points_and_a_pause_does_not() -> None:
    op = [Op.JUMP, Op.STITCH, Op.STITCH, Op.PAUSE, Op.STITCH, Op.JUMP, Op.STITCH]
    assert _stitches(op).stitch_rows.tolist() == [[1, 2], [2, 4]]


def test_a_stitch_over_a_pause_is_as_long_as_the_way_between_its_ends() -> None:
    lengths = _stitches([Op.STITCH, Op.PAUSE, Op.STITCH]).sewn_lengths
    assert lengths == pytest.approx([2 * 2**0.5])


def test_nothing_sewn_has_no_stitches() -> None:
    assert _stitches([]).stitch_rows.shape == (0, 2)
    assert _stitches([Op.JUMP, Op.STITCH]).sewn_lengths.tolist() == []


@given(op=st.lists(st.sampled_from([int(op) for op in Op]), max_size=30))
def test_in_parts_there_are_the_same_stitches(op: list[int]) -> None:
    """By hand, row by row: the last row but cuts and pauses is a needle point as well."""
    expected, last = [], None
    for row, kind in enumerate(op):
        if kind == Op.STITCH and last is not None and op[last] == Op.STITCH:
            expected.append([last, row])
        last = row if kind in {Op.STITCH, Op.JUMP} else last
    for size in (1, 3, 100):
        with pytest.MonkeyPatch.context() as patch:
            patch.setattr("stitchpath.geometry.points._AT_A_TIME", size)
            assert _stitches(op).stitch_rows.tolist() == expected
