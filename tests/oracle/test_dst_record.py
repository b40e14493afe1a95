"""dst files against an independent decoder of the published record."""

import numpy as np
import pytest
from hypothesis import given

from stitchpath.catalog.formats import FORMATS
from stitchpath.machine import decode, stitch_file
from stitchpath.machine.dst_decode import decode_dst
from stitchpath.model.hooping import Hooping
from stitchpath.model.stitches import Op, Stitches
from stitchpath.model.thread import ThreadPair
from tests.support.dst_record import DstRecord, decode_body, decode_record
from tests.support.stitch_sets import flat_hooping, make_stitches, sewn_hoopings


@pytest.mark.parametrize(
    ("record", "meaning"),
    [
        ("A8 12 23", DstRecord("stitch", -12, 64)),
        ("A8 12 A3", DstRecord("jump", -12, 64)),
        ("00 00 C3", DstRecord("colour", 0, 0)),
    ],
)
def test_decoder_reads_the_published_examples(record: str, meaning: DstRecord) -> None:
    # Source: the three examples under the table in http://www.achatina.de/sewing/main/DST.HTM
    assert decode_record(bytes.fromhex(record)) == meaning


@pytest.mark.parametrize("place", range(3))
def test_every_byte_moves_as_the_table_says(place: int) -> None:
    for byte in range(256):
        record = bytes([byte if at == place else 0 for at in range(2)] + [0x03])
        if place == 2:  # a third byte with no mark, and one stitch to see where it led
            record = bytes([0, 0, byte & 0x3C | 0x03])
        want = decode_record(record)
        read = decode_dst(bytes(512) + record)
        assert read.xy_units.tolist() == [[want.dx, -want.dy]], record.hex()
        assert read.op.tolist() == [Op.STITCH]


def _written(stitches: Stitches, hooping: Hooping) -> bytes:
    return stitch_file(
        stitches, hooping, format=FORMATS["dst"], name="oracle", thread=ThreadPair()
    )


@given(sewn_hoopings())
def test_own_reader_finds_the_needle_points_of_the_independent_one(
    sewn: tuple[Stitches, Hooping],
) -> None:
    stitches, hooping = sewn
    data = _written(stitches, hooping)
    records = decode_body(data)
    places = np.cumsum([(record.dx, -record.dy) for record in records], axis=0)
    sewn_at = places[[record.kind == "stitch" for record in records]]
    np.testing.assert_array_equal(decode(data, "dst").needle_points_units, sewn_at)


@given(sewn_hoopings())
def test_records_hold_every_needle_point_of_the_plan(sewn: tuple[Stitches, Hooping]) -> None:
    stitches, hooping = sewn
    data = _written(stitches, hooping)
    records = decode_body(data)
    assert [record.kind for record in records].count("end") == 1
    assert records[-1].kind == "end"
    places = np.cumsum([(record.dx, -record.dy) for record in records], axis=0)  # y down
    sewn_at = places[[record.kind == "stitch" for record in records]]
    planned = np.rint(hooping.to_field(stitches.needle_points) * 10)
    np.testing.assert_array_equal(sewn_at, planned)


@given(sewn_hoopings())
def test_records_hold_every_pause_as_a_change_of_colour(
    sewn: tuple[Stitches, Hooping],
) -> None:
    stitches, hooping = sewn
    data = _written(stitches, hooping)
    before_colours, points = [], 0
    for record in decode_body(data):
        points += record.kind == "stitch"
        if record.kind == "colour":
            before_colours.append(points)
    planned = np.cumsum(stitches.op == Op.STITCH)[stitches.op == Op.PAUSE]
    assert before_colours == planned.tolist()


def test_a_cut_is_three_small_jumps_that_end_where_they_began() -> None:
    # Source: edutechwiki.unige.ch/en/Embroidery_format_DST names no command for a cut; three
    # jumps for one is the library's convention and common practice.
    stitches = make_stitches([[0, 0], [2, 0], [2, 0], [2, 0]], [0, 0, Op.CUT, 0])
    data = _written(stitches, flat_hooping())
    kinds = [record.kind for record in decode_body(data)]
    assert kinds == ["stitch", "stitch", "jump", "jump", "jump", "stitch", "end"]
    jumps = [record for record in decode_body(data) if record.kind == "jump"]
    assert [(jump.dx, jump.dy) for jump in jumps] == [(2, -2), (-4, 4), (2, -2)]
