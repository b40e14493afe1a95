"""Bytes from anywhere: read, or refused with a reason."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.catalog.formats import FORMATS, Format
from stitchpath.errors import FormatError
from stitchpath.machine import FileStitches, decode, stitch_file
from stitchpath.machine import decode as decode_function
from stitchpath.machine.decode import MOST_BYTES
from stitchpath.model.stitches import Op
from stitchpath.model.thread import ThreadPair
from tests.support.stitch_sets import flat_hooping, make_stitches

all_formats = pytest.mark.parametrize("format_", FORMATS.values(), ids=FORMATS)


def _good(format_: Format) -> bytes:
    stitches = make_stitches(
        [[0, 0], [3, 1], [3, 1], [3, 1], [40, 9], [40, 9], [44, 2]],
        [Op.STITCH, Op.STITCH, Op.CUT, Op.PAUSE, Op.JUMP, Op.STITCH, Op.STITCH],
    )
    return stitch_file(
        stitches, flat_hooping(), format=format_, name="good", thread=ThreadPair()
    )


def test_exp_bytes_by_hand_are_read() -> None:
    # Two stitches, a jump, a change of colour, a cut; y up in the file, down here.
    data = bytes.fromhex("0A 05  F6 00  80 04 14 FF  80 01 00 00  80 80 07 00  01 01")
    read = decode(data, ".EXP")
    assert read.op.tolist() == [Op.STITCH, Op.STITCH, Op.JUMP, Op.PAUSE, Op.CUT, Op.STITCH]
    assert read.xy_units.tolist() == [[10, -5], [0, -5], [20, -4], [20, -4], [20, -4], [21, -5]]
    assert read.needle_points_units.tolist() == [[10, -5], [0, -5], [21, -5]]


def test_empty_exp_file_has_no_rows() -> None:
    assert len(decode(b"", "exp").op) == 0


def test_unknown_format_is_refused_with_those_there_are() -> None:
    with pytest.raises(FormatError, match=r"`\.abc` is not a stitch format here: use dst, exp"):
        decode(b"", ".abc")


@pytest.mark.parametrize(
    ("suffix", "start"), [("dst", "LA:"), ("pes", "#PES"), ("vp3", "%vsm%")]
)
def test_wrong_first_bytes_are_refused(suffix: str, start: str) -> None:
    with pytest.raises(FormatError, match=f"one begins with {start}"):
        decode(b"<svg/>" * 200, suffix)


def test_huge_file_is_refused_before_it_is_read() -> None:
    with pytest.raises(FormatError, match=f"the limit is {MOST_BYTES:,} bytes"):
        decode(bytes(MOST_BYTES + 1), "exp")


def test_readers_own_exception_becomes_a_format_error() -> None:
    with pytest.raises(FormatError, match=r"cannot be read as a xxx file: TypeError"):
        decode(b"\x00" * 50, "xxx")


@all_formats
@given(data=st.data())
def test_damaged_file_is_read_or_refused_and_never_more(
    format_: Format, data: st.DataObject
) -> None:
    good = _good(format_)
    at = data.draw(st.integers(0, len(good) - 1))
    damage = data.draw(st.binary(max_size=6))
    cut = data.draw(st.booleans())
    bad = good[:at] + damage + (b"" if cut else good[at + len(damage) :])
    try:
        read = decode_function(bad, format_.suffix)
    except FormatError:
        return
    assert isinstance(read, FileStitches)
    assert read.xy_units.shape == (len(read.op), 2)
    assert np.isin(read.op, list(Op)).all()
