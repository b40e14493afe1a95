"""The comparison that stands between an encoder's slip and a maker's needle."""

from dataclasses import replace

import numpy as np
import pytest

from stitchpath.catalog.formats import FORMATS, Format
from stitchpath.errors import FormatError
from stitchpath.machine.codecs import CODECS
from stitchpath.machine.compare import check_read_back
from stitchpath.machine.decode import decode
from stitchpath.machine.records import make_records, round_to_units
from stitchpath.machine.rows import FileStitches, Label
from stitchpath.model.stitches import Op, Stitches
from tests.support.stitch_sets import flat_hooping, make_stitches

all_formats = pytest.mark.parametrize("format_", FORMATS.values(), ids=FORMATS)
S, J, C, P = Op.STITCH, Op.JUMP, Op.CUT, Op.PAUSE

_PLAN = make_stitches(
    [[5, 5], [5, 5], [8, 5], [8, 5], [11, 6], [11, 6], [11, 6], [30, 40], [30, 40], [33, 40]],
    [J, S, S, P, S, C, C, J, S, S],
)


def _encoded(stitches: Stitches, format_: Format) -> bytes:
    records = make_records(round_to_units(stitches, flat_hooping()), stitches.op, format_)
    return CODECS[format_.name].encode(records, Label(name="plan", colour="#2a6f77"))


def _check(read: FileStitches, format_: Format, stitches: Stitches = _PLAN) -> None:
    units = round_to_units(stitches, flat_hooping())
    records = make_records(units, stitches.op, format_)
    check_read_back(units, stitches.op, records, read, format_)


def _honest(format_: Format) -> FileStitches:
    return decode(_encoded(_PLAN, format_), format_.suffix)


def _without(read: FileStitches, op: Op) -> FileStitches:
    row = int(np.flatnonzero(read.op == op)[0])
    return FileStitches(
        xy_units=np.delete(read.xy_units, row, axis=0), op=np.delete(read.op, row)
    )


@all_formats
def test_honest_file_passes(format_: Format) -> None:
    _check(_honest(format_), format_)


@all_formats
def test_one_point_off_by_a_tenth_is_seen(format_: Format) -> None:
    read = _honest(format_)
    xy = read.xy_units.copy()
    xy[np.flatnonzero(read.op == S)[3], 1] += 1
    with pytest.raises(FormatError, match=r"needle point 4 is at \[300, 401\] in place of"):
        _check(replace(read, xy_units=xy), format_)


@all_formats
def test_lost_stitch_is_seen(format_: Format) -> None:
    with pytest.raises(FormatError, match="4 needle points in place of 5"):
        _check(_without(_honest(format_), S), format_)


@all_formats
def test_lost_pause_is_seen(format_: Format) -> None:
    with pytest.raises(FormatError, match="a pause differs before needle point 3"):
        _check(_without(_honest(format_), P), format_)


@all_formats
def test_lost_cut_is_seen(format_: Format) -> None:
    with pytest.raises(FormatError, match="a cut differs before needle point 4"):
        _check(_without(_honest(format_), C), format_)


@all_formats
def test_cut_in_the_middle_of_a_run_is_seen(format_: Format) -> None:
    read = _honest(format_)
    row = int(np.flatnonzero(read.op == S)[-1])
    bad = FileStitches(
        xy_units=np.insert(read.xy_units, row, read.xy_units[row - 1], axis=0),
        op=np.insert(read.op, row, C),
    )
    with pytest.raises(FormatError, match="a cut differs before needle point 5"):
        _check(bad, format_)


@all_formats
def test_cut_before_the_first_or_after_the_last_needle_point_is_no_difference(
    format_: Format,
) -> None:
    read = _honest(format_)
    around = FileStitches(
        xy_units=np.concatenate([[[0, 0]], read.xy_units, read.xy_units[-1:]]),
        op=np.concatenate([[C], read.op, [C]]).astype(np.uint8),
    )
    _check(around, format_)


@all_formats
def test_file_of_another_plan_is_seen(format_: Format) -> None:
    xy = _PLAN.xy.copy()
    xy[2] += 0.1
    other = replace(_PLAN, xy=xy)
    with pytest.raises(FormatError, match="needle point 2"):
        _check(decode(_encoded(other, format_), format_.suffix), format_)


@pytest.mark.parametrize(("name", "start"), [("dst", 512), ("exp", 0), ("u01", 256)])
def test_any_flipped_bit_of_a_run_is_seen(name: str, start: int) -> None:
    format_ = FORMATS[name]
    stitches = make_stitches([[0, 0], [2.9, 1.3], [5.1, -0.4], [4.0, 2.0]], [S, S, S, S])
    good = _encoded(stitches, format_)
    end = len(good) if name == "exp" else len(good) - 3  # the end's own mark has idle bits
    missed = []
    for bit in range(start * 8, end * 8):
        bad = bytearray(good)
        bad[bit // 8] ^= 1 << bit % 8
        try:
            _check(decode(bytes(bad), name), format_, stitches)
        except FormatError:
            continue
        missed.append((bit // 8 - start, bit % 8))
    idle = {  # always set; speed; sides of the first step, which is none
        "dst": {(at, bit) for at in range(2, 12, 3) for bit in (0, 1)},
        "u01": {(at, bit) for at in range(0, 12, 3) for bit in (7, 1, 2)} | {(0, 5), (0, 6)},
        "exp": set(),
    }
    assert set(missed) <= idle[name]
