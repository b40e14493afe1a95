"""Reading dst: as the library does, on any bytes."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.machine.dst_decode import decode_dst
from stitchpath.model.stitches import Op
from tests.support.library_files import read_by_library, rows_of

_HEADER = b"LA:tide".ljust(512)
_STITCH, _JUMP, _COLOUR, _SEQUINS, _END = 0x03, 0x83, 0xC3, 0x43, 0xF3
_BACK_AND_FORTH = [(1, 0, _JUMP), (2, 0, _JUMP), (1, 0, _JUMP), (2, 0, _JUMP)]

_thirds = st.one_of(
    st.sampled_from([_STITCH, _JUMP, _JUMP, _JUMP, _COLOUR, _SEQUINS]), st.integers(0, 255)
)
_records = st.tuples(st.sampled_from([0, 0, 1, 2, 4, 64, 128]), st.integers(0, 255), _thirds)
_small = st.tuples(st.sampled_from([0, 1, 2]), st.just(0), _thirds)
_bodies = st.lists(st.one_of(_records, _small, st.sampled_from(_BACK_AND_FORTH)), max_size=40)


def _dst(*records: tuple[int, int, int], tail: bytes = b"") -> bytes:
    return _HEADER + b"".join(map(bytes, records)) + tail


def _ops(data: bytes) -> list[int]:
    return [int(op) for op in decode_dst(data).op]


@given(body=_bodies, tail=st.binary(max_size=3))
def test_any_records_are_read_as_the_library_reads_them(
    body: list[tuple[int, int, int]], tail: bytes
) -> None:
    data = _dst(*body, tail=tail)
    assert rows_of(decode_dst(data)) == read_by_library("dst", data)


@given(st.binary(max_size=200))
def test_any_bytes_are_read_as_the_library_reads_them(body: bytes) -> None:
    assert rows_of(decode_dst(_HEADER + body)) == read_by_library("dst", _HEADER + body)


@pytest.mark.parametrize("length", [0, 3, 511, 512, 513, 514])
def test_file_without_a_whole_record_has_no_rows(length: int) -> None:
    assert decode_dst(_dst((1, 0, _STITCH))[:length]).xy_units.shape == (0, 2)


def test_records_after_the_end_are_not_read() -> None:
    assert _ops(_dst((1, 0, _STITCH), (0, 0, _END), (1, 0, _STITCH))) == [Op.STITCH]


def test_three_jumps_that_lead_back_are_a_cut_and_nothing_else() -> None:
    home = [(1, 0, _JUMP), (1, 0, _JUMP), (1, 2, _JUMP)]  # 1 + 1 + (1 - 3) = 0
    assert _ops(_dst((0, 0, _STITCH), *home)) == [Op.STITCH, Op.CUT]


def test_three_jumps_that_lead_on_are_a_cut_and_the_jumps() -> None:
    on = [(1, 0, _JUMP), (1, 0, _JUMP), (2, 0, _JUMP)]
    assert _ops(_dst((0, 0, _STITCH), *on)) == [Op.STITCH, Op.CUT, *[Op.JUMP] * 3]


def test_two_jumps_that_lead_back_are_nothing() -> None:
    home = [(1, 0, _JUMP), (2, 0, _JUMP)]
    assert _ops(_dst((0, 0, _STITCH), *home, (0, 0, _STITCH))) == [Op.STITCH, Op.STITCH]


def test_nothing_is_cut_before_the_first_stitch_or_after_a_colour() -> None:
    way = [(1, 0, _JUMP)] * 4
    assert _ops(_dst(*way, (0, 0, _STITCH))) == [1, 1, 1, 1, 0]
    assert _ops(_dst((0, 0, _STITCH), (0, 0, _COLOUR), *way)) == [0, 3, 1, 1, 1, 1]


def test_jumps_between_two_turns_of_the_sequins_place_them_and_are_no_jumps() -> None:
    on = (0, 0, _SEQUINS)
    data = _dst((0, 0, _STITCH), on, (1, 0, _JUMP), on, (1, 0, _JUMP), (1, 0, _STITCH))
    assert rows_of(decode_dst(data)) == [(0, 0, 0), (2, 0, 1), (3, 0, 0)]


def test_header_that_the_library_stumbles_over_is_passed_over() -> None:
    data = b"LA:tide\rTC:#000000\r".ljust(512) + bytes([1, 0, _STITCH])
    with pytest.raises(IndexError):
        read_by_library("dst", data)
    assert rows_of(decode_dst(data)) == [(1, 0, Op.STITCH)]


def test_no_error_adds_up_over_a_million_records() -> None:
    body = bytes([0x85, 0, _STITCH]) * 1_000_000  # x + 1 + 9, y up + 1
    places = decode_dst(_HEADER + body).xy_units
    np.testing.assert_array_equal(places[[0, -1]], [[10, -1], [10_000_000, -1_000_000]])
