"""dst files of our own making: against the library, and each slip seen on reading back."""

import numpy as np
import pytest
from numpy.typing import NDArray

from stitchpath.catalog.formats import FORMATS
from stitchpath.errors import FormatError
from stitchpath.machine import dst_encode
from stitchpath.machine.compare import check_read_back
from stitchpath.machine.dst_decode import decode_dst
from stitchpath.machine.dst_encode import encode_dst
from stitchpath.machine.rows import Label, Records
from stitchpath.model.stitches import Op
from tests.support.library_files import write_by_library

_LABEL = Label(name="tide", colour="#2a6f77")
_DST = FORMATS["dst"]


def _every_step() -> Records:
    """Return stitches with every step along x, and every one along y in the other order."""
    steps = np.arange(-121, 122)
    xy = np.cumsum(np.column_stack([steps, steps[::-1]]), axis=0)
    return Records(xy_units=xy, op=np.zeros(len(xy), dtype=np.uint8))


def test_every_step_is_written_as_the_library_writes_it() -> None:
    records = _every_step()
    assert encode_dst(records, _LABEL) == write_by_library("dst", records, title="tide")


def _bits(table: NDArray[np.uint32]) -> list[int]:
    return [bit for bit in range(24) if (table >> bit & 1).any()]


@pytest.mark.parametrize("name", ["_X", "_Y_UP"])
@pytest.mark.parametrize("nth", range(10))
def test_wrong_bit_in_a_table_of_the_encoder_is_seen_on_reading_back(
    name: str, nth: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    table = getattr(dst_encode, name)
    bits = _bits(table)
    assert len(bits) == 10
    monkeypatch.setattr(dst_encode, name, table & ~np.uint32(1 << bits[nth]))
    records = _every_step()
    read = decode_dst(encode_dst(records, _LABEL))
    with pytest.raises(FormatError, match="does not read back as planned: needle point"):
        check_read_back(records.xy_units, records.op, records, read, _DST)


@pytest.mark.parametrize("op", [Op.STITCH, Op.JUMP, Op.PAUSE])
def test_wrong_mark_of_the_encoder_is_seen_on_reading_back(
    op: Op, monkeypatch: pytest.MonkeyPatch
) -> None:
    marks = dst_encode._MARK.copy()  # noqa: SLF001 - the slip is made on purpose
    marks[op] = 0x830000 if op != Op.JUMP else 0x030000
    monkeypatch.setattr(dst_encode, "_MARK", marks)
    xy = np.array([[0, 0], [9, 0], [9, 0], [50, 0], [50, 0], [60, 0]])
    kinds = np.array([0, 0, Op.PAUSE, Op.JUMP, 0, 0], dtype=np.uint8)
    records = Records(xy_units=xy, op=kinds)
    read = decode_dst(encode_dst(records, _LABEL))
    with pytest.raises(FormatError, match="does not read back as planned"):
        check_read_back(xy, kinds, records, read, _DST)


@pytest.mark.parametrize("step", [(122, 0), (0, 122), (-122, 0), (0, -122), (243, 0)])
def test_step_beyond_the_record_is_a_bug(step: tuple[int, int]) -> None:
    xy = np.array([(0, 0), step])
    with pytest.raises(ValueError, match="a step is longer than 121 units"):
        encode_dst(Records(xy_units=xy, op=np.zeros(2, dtype=np.uint8)), _LABEL)


def test_negative_last_place_has_its_own_sign_in_the_header() -> None:
    xy = np.array([[0, 0], [-30, 40]])
    data = encode_dst(Records(xy_units=xy, op=np.zeros(2, dtype=np.uint8)), _LABEL)
    assert b"AX:-   30\rAY:-   40\rMX:+    0\rMY:+    0\rPD:******\r\x1a " in data
