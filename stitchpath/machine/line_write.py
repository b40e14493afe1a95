"""The only way to make a line file or a table of needle points: encode, read back, compare."""

from collections.abc import Callable, Sequence
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.errors import FormatError
from stitchpath.machine.line_dxf import decode_dxf, encode_dxf
from stitchpath.machine.line_gcode import decode_gcode, encode_gcode
from stitchpath.machine.line_svg import decode_svg, encode_svg
from stitchpath.machine.line_work import DECIMALS, LineWork, Stretches, stretches_of
from stitchpath.machine.plain_name import plain_name
from stitchpath.machine.points_text import decode_csv, decode_json, encode_csv, encode_json
from stitchpath.machine.records import round_to_units
from stitchpath.machine.rows import FileStitches, Units
from stitchpath.model.hooping import Hooping
from stitchpath.model.machine import GcodeWords
from stitchpath.model.plan import SewnHooping
from stitchpath.model.thread import ThreadPair

LINES: Final[
    dict[
        str,
        tuple[Callable[[LineWork], bytes], Callable[[bytes, LineWork], list[Stretches]]],
    ]
] = {
    "svg": (encode_svg, decode_svg),
    "dxf": (encode_dxf, decode_dxf),
    "gcode": (encode_gcode, decode_gcode),
}
POINTS: Final[
    dict[
        str,
        tuple[Callable[[Units, NDArray[np.uint8]], bytes], Callable[[bytes], FileStitches]],
    ]
] = {"csv": (encode_csv, decode_csv), "json": (encode_json, decode_json)}
_NAME_LENGTH: Final = 40


def line_file(
    sewn: SewnHooping, *, format_name: str, name: str, thread: ThreadPair, gcode: GcodeWords
) -> bytes:
    """Return a line file or a table of needle points that reads back as planned.

    Lines are those of the runs, to the micron; needle points are those of the stitch files. The
    same plan gives the same bytes.

    Args:
        sewn: What is sewn.
        format_name: One of `LINE_FORMATS`.
        name: The design's name.
        thread: The stage's threads.
        gcode: The feed, and the words for the needle.

    Raises:
        FormatError: What is read back is not what was written.
    """
    hooping = sewn.hooping
    if format_name in POINTS:
        return _points_file(sewn, format_name)
    work = LineWork(
        name=plain_name(name, _NAME_LENGTH),
        colour=thread.top,
        field=hooping.field,
        runs=tuple(stretches_of(run, hooping) for run in sewn.runs),
        marks=tuple((mark.name, mark.field) for mark in hooping.marks),
        gcode=gcode,
    )
    encode, decode = LINES[format_name]
    data = encode(work)
    if not are_same(work.runs, decode(data, work)):
        raise FormatError(_differs(format_name, hooping))
    return data


def _points_file(sewn: SewnHooping, format_name: str) -> bytes:
    units, op = round_to_units(sewn.stitches, sewn.hooping), sewn.stitches.op
    encode, decode = POINTS[format_name]
    data = encode(units, op)
    read = decode(data)
    if not (np.array_equal(read.xy_units, units) and np.array_equal(read.op, op)):
        raise FormatError(_differs(format_name, sewn.hooping))
    return data


def are_same(planned: Sequence[Stretches], read: Sequence[Stretches]) -> bool:
    """Tell whether runs read back are those planned, to the last decimal that is written."""
    if [len(run) for run in planned] != [len(run) for run in read]:
        return False
    return all(
        np.array_equal(want, np.round(got, DECIMALS))
        for run, found in zip(planned, read, strict=True)
        for want, got in zip(run, found, strict=True)
    )


def _differs(format_name: str, hooping: Hooping) -> str:
    return (
        f"the {format_name} file of hooping {hooping.number} does not read back as planned\n"
        "nothing was written; use another format"
    )
