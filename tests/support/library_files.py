"""dst and exp files as the library writes and reads them: an oracle for our own codecs.

The library's writer is used without its encoder, from explicit low-level rows; the header's
extents, which it has wrong, are written over afterwards.
"""

import io
from collections.abc import Callable
from typing import Any

import numpy as np
from pyembroidery import COLOR_CHANGE, END, JUMP, STITCH, STOP, TRIM, EmbPattern, EmbThread

from stitchpath.machine.rows import FileStitches, Records
from stitchpath.model.stitches import Op

_COMMANDS = {Op.STITCH: STITCH, Op.JUMP: JUMP, Op.CUT: TRIM, Op.PAUSE: COLOR_CHANGE}
_OPS = {STITCH: Op.STITCH, JUMP: Op.JUMP, TRIM: Op.CUT, STOP: Op.PAUSE, COLOR_CHANGE: Op.PAUSE}
_CUT_SHIFTS = (2, -2, 0)
_EXTENTS_AT = 38  # after LA (20 bytes), ST (11) and CO (7)


def write_by_library(name: str, records: Records, *, title: str) -> bytes:
    """Return a dst or exp file of the records."""
    data = written(name, pattern_of(name, records, title=title))
    return with_extents_from_the_start(data, records) if name == "dst" else data


def pattern_of(name: str, records: Records, *, title: str) -> EmbPattern:
    """Return the records as the library's rows."""
    pattern = EmbPattern()
    pattern.add_thread(EmbThread("#000000"))
    pattern.metadata("name", title)
    for (x, y), op in zip(records.xy_units.tolist(), records.op.tolist(), strict=True):
        if name == "dst" and op == Op.CUT:  # the same three records, but counted as three
            pattern.stitches.extend((x + by, y + by, JUMP) for by in _CUT_SHIFTS)
        else:
            pattern.stitches.append((x, y, _COMMANDS[Op(op)]))
    pattern.stitches.append((*records.xy_units[-1].tolist(), END))
    return pattern


def written(name: str, pattern: EmbPattern) -> bytes:
    """Return what the library writes, its checking and splitting switched off."""
    stream = io.BytesIO()
    writer: Callable[..., None] = getattr(EmbPattern, f"write_{name}")
    writer(pattern, stream, {"encode": False})
    return stream.getvalue()


def with_extents_from_the_start(data: bytes, records: Records) -> bytes:
    """Return a dst file with the extents in its header that the library should have written."""
    right, below = np.maximum(records.xy_units.max(axis=0), 0).tolist()
    left, above = (-np.minimum(records.xy_units.min(axis=0), 0)).tolist()
    fields = f"+X:{right:5d}\r-X:{left:5d}\r+Y:{above:5d}\r-Y:{below:5d}\r".encode("ascii")
    return data[:_EXTENTS_AT] + fields + data[_EXTENTS_AT + len(fields) :]


def read_by_library(
    name: str, data: bytes, settings: dict[str, Any] | None = None
) -> list[tuple[int, int, int]]:
    """Return x, y and op of every row that the library reads and that we have a word for."""
    reader: Callable[..., EmbPattern] = getattr(EmbPattern, f"read_{name}")
    rows = reader(io.BytesIO(data), settings).stitches
    return [(x, y, int(_OPS[kind & 0xFF])) for x, y, kind in rows if kind & 0xFF in _OPS]


def rows_of(read: FileStitches) -> list[tuple[int, int, int]]:
    """Return x, y and op of what our own reader makes of a file."""
    return [
        (x, y, op) for (x, y), op in zip(read.xy_units.tolist(), read.op.tolist(), strict=True)
    ]
