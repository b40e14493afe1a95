"""Bytes -> stitches in the field's own frame, through the library's readers.

A reader is not trusted: it has no error of its own, so that anything it raises counts as a file
that cannot be read, and most truncated files pass; what was planned has to be compared.
"""

import io
from collections.abc import Callable
from dataclasses import dataclass
from itertools import chain
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray
from pyembroidery import (
    COLOR_CHANGE,
    COMMAND_MASK,
    JUMP,
    NEEDLE_SET,
    STITCH,
    STOP,
    TRIM,
    EmbPattern,
)

from stitchpath.errors import FormatError
from stitchpath.machine.records import Units
from stitchpath.model.stitches import Op

MOST_BYTES: Final = 64 * 2**20
"""Far above any hooping (20 million stitches); a larger file would only fill the memory."""

_OTHER: Final = 255
_OPS: Final = np.full(COMMAND_MASK + 1, _OTHER, dtype=np.uint8)
for _command, _op in {
    STITCH: Op.STITCH,
    JUMP: Op.JUMP,
    TRIM: Op.CUT,
    STOP: Op.PAUSE,
    COLOR_CHANGE: Op.PAUSE,
    NEEDLE_SET: Op.PAUSE,
}.items():
    _OPS[_command] = _op
_SETTINGS: Final[dict[str, dict[str, Any]]] = {
    "jef": {"trims": True, "trim_distance": None},  # by three jumps, not by their length
}
_READERS: Final[dict[str, tuple[Callable[..., EmbPattern], bytes]]] = {  # and first bytes
    "dst": (EmbPattern.read_dst, b"LA:"),
    "exp": (EmbPattern.read_exp, b""),
    "pes": (EmbPattern.read_pes, b"#PES"),
    "jef": (EmbPattern.read_jef, b""),
    "vp3": (EmbPattern.read_vp3, b"%vsm%"),
    "u01": (EmbPattern.read_u01, b""),
    "xxx": (EmbPattern.read_xxx, b""),
}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FileStitches:
    """What a stitch file says, in order.

    Attributes:
        xy_units: Where, shape (n, 2), tenths of a mm from the field's centre, y down.
        op: What, shape (n,), uint8, values of `Op`; a pause is a stop or a change of colour.
    """

    xy_units: Units
    op: NDArray[np.uint8]

    @property
    def needle_points_units(self) -> Units:
        """The places where the needle goes down, shape (m, 2), tenths of a mm."""
        points: Units = self.xy_units[self.op == Op.STITCH]
        return points


def decode(data: bytes, suffix: str) -> FileStitches:
    """Return what a stitch file says.

    Args:
        data: The whole file.
        suffix: Its format, with or without a dot, in either case.

    Raises:
        FormatError: The format is not one of the seven, or the bytes are not of that format as
            far as can be told. exp, jef, u01 and xxx have no mark to know them by.

    Not promised: that a truncated file is noticed.
    """
    name = suffix.lower().removeprefix(".")
    if name not in _READERS:
        raise FormatError(f"`{suffix}` is not a stitch format here: use {', '.join(_READERS)}")
    reader, start = _READERS[name]
    if len(data) > MOST_BYTES:
        raise FormatError(
            f"the {name} file is larger than any hooping: {len(data)} bytes\n"
            f"the limit is {MOST_BYTES} bytes"
        )
    if not data.startswith(start):
        raise FormatError(f"the bytes are not a {name} file: one begins with {start.decode()}")
    try:
        rows = reader(io.BytesIO(data), _SETTINGS.get(name)).stitches
        return _columns(rows)
    except Exception as fault:
        raise FormatError(
            f"the bytes cannot be read as a {name} file: {type(fault).__name__} in its reader"
        ) from fault


def _columns(rows: list[list[float]]) -> FileStitches:
    flat = np.fromiter(chain.from_iterable(rows), dtype=np.float64, count=3 * len(rows))
    table = flat.reshape(-1, 3)
    op = _OPS[table[:, 2].astype(np.int64) & COMMAND_MASK]
    known = op != _OTHER
    xy = np.rint(table[known, :2]).astype(np.int64)
    return FileStitches(xy_units=xy, op=op[known])
