"""Any kind in any format: no needle point moves, and what is lost is told."""

import numpy as np
import pytest

from stitchpath.catalog.formats import FORMATS
from stitchpath.machine import read_stitch_file, sewn_part, stitch_file
from stitchpath.machine.library_read import decode_by_library
from stitchpath.machine.rewrite import fit_to_format, losses
from stitchpath.machine.rows import FileStitches
from stitchpath.model.stitches import Op, Stitches
from stitchpath.model.thread import ThreadPair
from tests.support.kinds_of_files import KINDS, file_of_kind
from tests.support.stitch_sets import flat_hooping


def _read(data: bytes, kind: str) -> FileStitches:
    return read_stitch_file(
        data, kind, by_library=lambda bytes_, name: decode_by_library(bytes_, name=name)
    ).read


def _written(stitches: Stitches, name: str) -> bytes:
    return stitch_file(
        fit_to_format(stitches, FORMATS[name]),
        flat_hooping(),
        format=FORMATS[name],
        name="again",
        thread=ThreadPair(),
    )


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("name", FORMATS)
def test_needle_points_of_any_kind_are_those_of_any_other(kind: str, name: str) -> None:
    read = _read(file_of_kind(kind), kind)
    again = _read(_written(sewn_part(read), name), name)
    assert again.needle_points_units.tolist() == read.needle_points_units.tolist()


def _file(rows: list[tuple[Op, int, int]], stops: tuple[int, ...] = ()) -> FileStitches:
    return FileStitches(
        xy_units=np.array([row[1:] for row in rows], dtype=np.int64),
        op=np.array([row[0] for row in rows], dtype=np.uint8),
        stops=np.array(stops, dtype=np.intp),
    )


def _losses(read: FileStitches, name: str) -> tuple[str, ...]:
    return losses(read, sewn_part(read), FORMATS[name])


# One stitch of 20 mm, a jump of 30 mm with the thread uncut, a stop.
ROWS = [
    (Op.STITCH, 0, 0),
    (Op.STITCH, 200, 0),
    (Op.JUMP, 200, 300),
    (Op.STITCH, 200, 300),
    (Op.PAUSE, 200, 300),
    (Op.STITCH, 200, 330),
]
TOLD = {
    "dst": (
        "longer than 12.1 mm, so written as jumps, thread uncut: 1 stitch",
        "written as changes of colour: 1 stop",
        "taken for thread cuts by machines: 1 uncut jump",
    ),
    "exp": (
        "longer than 12.7 mm, so written as jumps, thread uncut: 1 stitch",
        "written as changes of colour: 1 stop",
    ),
    "pes": ("taken for thread cuts by machines: 1 uncut jump",),
    "jef": (
        "longer than 12.7 mm, so written as jumps, thread uncut: 1 stitch",
        "written as changes of colour: 1 stop",
        "taken for thread cuts by machines: 1 uncut jump",
    ),
    "vp3": (
        "written as changes of colour: 1 stop",
        "sewn as long stitches: 1 uncut jump",
    ),
    "u01": ("longer than 12.7 mm, so written as jumps, thread uncut: 1 stitch",),
    "xxx": (
        "longer than 12.3 mm, so written as jumps, thread uncut: 1 stitch",
        "written as changes of colour: 1 stop",
    ),
}


@pytest.mark.parametrize("name", FORMATS)
def test_what_a_format_cannot_hold_is_told(name: str) -> None:
    read = _file(ROWS, stops=(4,))
    assert _losses(read, name) == TOLD[name]
    again = _read(_written(sewn_part(read), name), name)
    assert again.needle_points_units.tolist() == read.needle_points_units.tolist()


def test_a_stitch_in_more_hops_than_a_cut_takes_is_told_as_a_cut() -> None:
    read = _file([(Op.STITCH, 0, 0), (Op.STITCH, 500, 0)])
    assert _losses(read, "dst")[-1] == "taken for thread cuts by machines: 1 uncut jump"


def test_colours_that_are_not_kept_are_told() -> None:
    read = _file([(Op.STITCH, 0, 0), (Op.PAUSE, 0, 0), (Op.STITCH, 9, 0)])
    told = _losses(read, "u01")
    assert told == ("colours are not kept: 2 colour blocks are written in one colour",)


def test_what_a_format_holds_is_not_touched() -> None:
    read = _file([(Op.STITCH, 0, 0), (Op.STITCH, 121, 0), (Op.CUT, 121, 0), (Op.STITCH, 9, 0)])
    sewn = sewn_part(read)
    assert _losses(read, "dst") == ()
    assert fit_to_format(sewn, FORMATS["dst"]).op.tolist() == sewn.op.tolist()
