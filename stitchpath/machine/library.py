"""Writes the other five formats, through the library and without its encoder.

The encoder would split, round and add moves of its own; everything is already decided here, so
it is switched off and each record is given where the needle already is.
"""

import io
from collections.abc import Callable
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray
from pyembroidery import (
    COLOR_CHANGE,
    END,
    JUMP,
    STITCH,
    STOP,
    TRIM,
    EmbPattern,
    EmbThread,
)

from stitchpath.machine.rows import Label, Records, Units
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
