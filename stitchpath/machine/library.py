"""The other five formats, through the library and without its encoder.

The encoder would split, round and add moves of its own; everything is already decided here, so
it is switched off and each record is given where the needle already is.

A reader is not trusted: it has no error of its own, so that anything it raises counts as a file
that cannot be read, and most truncated files pass; what was planned has to be compared.
"""

import io
from collections.abc import Callable
from itertools import chain
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray
from pyembroidery import (
    COLOR_CHANGE,
    COMMAND_MASK,
    END,
    JUMP,
    NEEDLE_SET,
    STITCH,
    STOP,
    TRIM,
    EmbPattern,
    EmbThread,
)

from stitchpath.errors import FormatError
from stitchpath.machine.rows import FileStitches, Label, Records, Units
from stitchpath.model.stitches import Op

_COMMAND: Final = np.array([STITCH, JUMP, TRIM, COLOR_CHANGE])  # by Op
_KEEPS_STOPS: Final = frozenset({"jef", "u01"})  # pes has them as a change to the same colour
_WRITERS: Final[dict[str, tuple[Callable[..., None], dict[str, Any]]]] = {  # and settings
    "pes": (EmbPattern.write_pes, {"version": 1}),
    "jef": (EmbPattern.write_jef, {"trims": True, "date": "20000101000000"}),  # else the day's
    "vp3": (EmbPattern.write_vp3, {}),
    "u01": (EmbPattern.write_u01, {}),
    "xxx": (EmbPattern.write_xxx, {}),
}
_OTHER: Final = 255
_OPS: Final = np.full(COMMAND_MASK + 1, _OTHER, dtype=np.uint8)
_OPS[[STITCH, JUMP, TRIM]] = [Op.STITCH, Op.JUMP, Op.CUT]
_OPS[[STOP, COLOR_CHANGE, NEEDLE_SET]] = Op.PAUSE
_READERS: Final[dict[str, tuple[Callable[..., EmbPattern], dict[str, Any]]]] = {
    "pes": (EmbPattern.read_pes, {}),
    "jef": (EmbPattern.read_jef, {"trims": True, "trim_distance": None}),  # by three jumps
    "vp3": (EmbPattern.read_vp3, {}),
    "u01": (EmbPattern.read_u01, {}),
    "xxx": (EmbPattern.read_xxx, {}),
}


class _LightPattern(EmbPattern):  # type: ignore[misc]  # the library ships without annotations
    """Takes stitches in one call in place of three, and in half the time.

    A row is a tuple, which the collector of garbage need not follow, as it would a list.
    """

    def stitch(self, dx: float = 0, dy: float = 0, position: None = None) -> None:
        """Append a stitch; no reader used here gives a position."""
        if position is not None:
            raise ValueError("stitches are appended only")
        self._previousX += dx
        self._previousY += dy
        self.stitches.append((self._previousX, self._previousY, STITCH))


def encode_by_library(records: Records, label: Label, *, name: str) -> bytes:
    """Return the bytes of a file of the named format."""
    pauses = int(np.count_nonzero(records.op == Op.PAUSE))
    pattern = EmbPattern()
    # One thread for each colour block; for a missing one the library would invent a colour.
    blocks = 1 if name in _KEEPS_STOPS else pauses + 1
    pattern.threadlist.extend(EmbThread(label.colour) for _ in range(blocks))
    pattern.metadata("name", label.name)
    pattern.stitches = _library_rows(records, name)
    stream = io.BytesIO()
    write, settings = _WRITERS[name]
    write(pattern, stream, {"encode": False} | settings)
    return stream.getvalue()


def decode_by_library(data: bytes, *, name: str) -> FileStitches:
    """Return what a file of the named format says.

    Raises:
        FormatError: The library cannot read it.
    """
    read, settings = _READERS[name]
    try:
        return _columns(read(io.BytesIO(data), settings, _LightPattern()).stitches)
    except Exception as fault:
        raise FormatError(
            f"the bytes cannot be read as a {name} file: {type(fault).__name__} in its reader"
        ) from fault


def _library_rows(records: Records, name: str) -> list[tuple[int, int, int]]:
    """Write the records as the library's rows of x, y, command, the end included."""
    command = _COMMAND[records.op]
    if name in _KEEPS_STOPS:
        command = np.where(records.op == Op.PAUSE, STOP, command)
    xy = records.xy_units
    last = xy[-1:]
    if name == "vp3":
        xy, command = _with_even_bounds(xy, command)
    xy, command = np.concatenate([xy, last]), np.append(command, END)
    return list(zip(xy[:, 0].tolist(), xy[:, 1].tolist(), command.tolist(), strict=True))


def _with_even_bounds(xy: Units, command: NDArray[np.int64]) -> tuple[Units, NDArray[np.int64]]:
    """Append a jump that makes the middle of the bounds a whole number.

    The library truncates the middle and each block's distance from it by themselves, so that
    blocks after the first would be off by a tenth. A jump counts for the bounds only: the
    format does not store it.
    """
    most, least = xy.max(axis=0), xy.min(axis=0)
    odd = (most + least) % 2
    if not odd.any():
        return xy, command
    return np.concatenate([xy, [most + odd]]), np.append(command, JUMP)


def _columns(rows: list[list[float]]) -> FileStitches:
    flat = np.fromiter(chain.from_iterable(rows), dtype=np.float64, count=3 * len(rows))
    table = flat.reshape(-1, 3)
    op = _OPS[table[:, 2].astype(np.int64) & COMMAND_MASK]
    known = op != _OTHER
    xy = np.rint(table[known, :2]).astype(np.int64)
    return FileStitches(xy_units=xy, op=op[known])
