"""exp files against an independent decoder of the published description."""

import numpy as np
from hypothesis import given

from stitchpath.catalog.formats import FORMATS
from stitchpath.machine import decode, stitch_file
from stitchpath.model.hooping import Hooping
from stitchpath.model.stitches import Op, Stitches
from stitchpath.model.thread import ThreadPair
from tests.support.exp_record import decode_exp
from tests.support.stitch_sets import sewn_hoopings


def test_decoder_reads_the_published_example() -> None:
    # Source: the example in the text on the exp format at hwiegman.home.xs4all.nl/fileformats,
    # a rectangle "approx. 25.4 x 38.1 mm" in two colours, sewn back to its start.
    data = bytes.fromhex(
        "00 7F 00 7F 7F 00 80 02 7F 00 7F 00 80 01 00 81 00 81 81 00 80 02 81 00 81 00"
    )
    records = decode_exp(data)
    places = np.cumsum([(record.dx, record.dy) for record in records], axis=0)
    assert places.max(axis=0).tolist() == [381, 254]
    assert places[-1].tolist() == [0, 0]
    assert [record.kind for record in records].count("jump") == 2


def _written(stitches: Stitches, hooping: Hooping) -> bytes:
    return stitch_file(
        stitches, hooping, format=FORMATS["exp"], name="oracle", thread=ThreadPair()
    )


@given(sewn_hoopings())
def test_records_hold_every_needle_point_and_pause_of_the_plan(
    sewn: tuple[Stitches, Hooping],
) -> None:
    stitches, hooping = sewn
    data = _written(stitches, hooping)
    records = decode_exp(data)
    places = np.cumsum([(record.dx, -record.dy) for record in records], axis=0)  # y down
    is_stitch = np.array([record.kind == "stitch" for record in records])
    planned = np.rint(hooping.to_field(stitches.needle_points) * 10)
    np.testing.assert_array_equal(places[is_stitch], planned)
    pauses = np.array([record.kind == "colour" for record in records])
    want = np.cumsum(stitches.op == Op.STITCH)[stitches.op == Op.PAUSE]
    assert np.cumsum(is_stitch)[pauses].tolist() == want.tolist()


@given(sewn_hoopings())
def test_own_reader_finds_the_rows_of_the_independent_one(
    sewn: tuple[Stitches, Hooping],
) -> None:
    stitches, hooping = sewn
    data = _written(stitches, hooping)
    records, read = decode_exp(data), decode(data, "exp")
    places = np.cumsum([(record.dx, -record.dy) for record in records], axis=0)
    words = {Op.STITCH: "stitch", Op.JUMP: "jump", Op.CUT: "cut", Op.PAUSE: "colour"}
    assert [words[Op(op)] for op in read.op] == [record.kind for record in records]
    np.testing.assert_array_equal(read.xy_units, places)
