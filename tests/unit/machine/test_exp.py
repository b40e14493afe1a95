"""exp files of our own making and reading, against the library."""

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from stitchpath.machine.exp import decode_exp, encode_exp
from stitchpath.machine.rows import Label, Records
from stitchpath.model.stitches import Op
from tests.support.library_files import read_by_library, rows_of, write_by_library

_LABEL = Label(name="tide", colour="#2a6f77")
_bytes = st.one_of(st.sampled_from([0x80, 0x80, 0x00, 0x01, 0x02, 0x04]), st.integers(0, 255))


def test_every_step_is_written_as_the_library_writes_it_and_read_back() -> None:
    steps = np.arange(-127, 128)
    xy = np.cumsum(np.column_stack([steps, steps[::-1]]), axis=0)
    records = Records(xy_units=xy, op=np.zeros(len(xy), dtype=np.uint8))
    data = encode_exp(records, _LABEL)
    assert data == write_by_library("exp", records, title="tide")
    np.testing.assert_array_equal(decode_exp(data).xy_units, xy)


def test_commands_are_written_as_by_hand() -> None:
    xy = np.array([[10, -5], [10, -5], [10, -5], [30, -4], [30, -4]])
    op = np.array([Op.STITCH, Op.CUT, Op.PAUSE, Op.JUMP, Op.STITCH], dtype=np.uint8)
    want = bytes.fromhex("0A 05  80 80 07 00  80 01 00 00  80 04 14 FF  00 00")
    assert encode_exp(Records(xy_units=xy, op=op), _LABEL) == want


@given(st.lists(_bytes, max_size=60).map(bytes))
@example(b"\x80\x80\x80\x80\x80\x04")  # marks that are steps of marks
@example(b"\x01\x01\x80\x01\x05\x00\x80\x01\x00\x00\x80")
@example(b"\x01\x01\x80\x03\x05\x00\x01\x01")
def test_any_bytes_are_read_as_the_library_reads_them(data: bytes) -> None:
    assert rows_of(decode_exp(data)) == read_by_library("exp", data)


def test_reading_ends_at_an_unknown_mark() -> None:
    assert rows_of(decode_exp(bytes.fromhex("01 01  80 07 05 05  01 01"))) == [(1, -1, 0)]


def test_reading_ends_at_a_mark_that_is_cut_short() -> None:
    for tail in ("80", "80 04", "80 04 05"):
        assert rows_of(decode_exp(bytes.fromhex("01 01" + tail))) == [(1, -1, 0)]


@pytest.mark.parametrize("step", [(128, 0), (0, 128), (-128, 0), (0, -128), (256, 0)])
def test_step_beyond_the_record_is_a_bug(step: tuple[int, int]) -> None:
    xy = np.array([(0, 0), step])
    with pytest.raises(ValueError, match="a step is longer than 127 units"):
        encode_exp(Records(xy_units=xy, op=np.zeros(2, dtype=np.uint8)), _LABEL)
