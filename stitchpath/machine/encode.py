"""Records -> bytes, through the library's writers and without its encoder.

The encoder would split, round and add moves of its own; everything is already decided here, so
it is switched off and each record is given where the needle already is.
"""

import io
import unicodedata
from collections.abc import Callable
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray
from pyembroidery import COLOR_CHANGE, END, JUMP, STITCH, STOP, TRIM, EmbPattern, EmbThread

from stitchpath.catalog.formats import Format
from stitchpath.machine.dst_header import with_true_extents
from stitchpath.machine.records import Records, Units
from stitchpath.model.stitches import Op

_COMMAND: Final = np.array([STITCH, JUMP, TRIM, COLOR_CHANGE])  # by Op
_KEEPS_STOPS: Final = frozenset({"jef", "u01"})  # pes has them as a change to the same colour
_SETTINGS: Final[dict[str, dict[str, Any]]] = {
    "jef": {"trims": True, "date": "20000101000000"},  # else the day's date is written
    "pes": {"version": 1},
}
_WRITERS: Final[dict[str, Callable[..., None]]] = {
    "dst": EmbPattern.write_dst,
    "exp": EmbPattern.write_exp,
    "pes": EmbPattern.write_pes,
    "jef": EmbPattern.write_jef,
    "vp3": EmbPattern.write_vp3,
    "u01": EmbPattern.write_u01,
    "xxx": EmbPattern.write_xxx,
}
_PLAIN_NAME: Final = "QUILT"


def encode(records: Records, format_: Format, *, name: str, colour: str) -> bytes:
    """Return a file's bytes; the same records give the same bytes.

    Args:
        records: What to write, from `make_records`.
        format_: Which of the seven.
        name: The design's name; only plain letters and digits of it are used.
        colour: The needle thread as `#rrggbb`.
    """
    pauses = int(np.count_nonzero(records.op == Op.PAUSE))
    pattern = EmbPattern()
    # One thread for each colour block; for a missing one the library would invent a colour.
    pattern.threadlist.extend(EmbThread(colour) for _ in range(_blocks(pauses, format_)))
    pattern.metadata("name", plain_name(name, format_.name_length))
    pattern.stitches.extend(_library_rows(records, format_))
    stream = io.BytesIO()
    settings = {"encode": False} | _SETTINGS.get(format_.name, {})
    _WRITERS[format_.name](pattern, stream, settings)
    data = stream.getvalue()
    return with_true_extents(data, records) if format_.name == "dst" else data


def plain_name(name: str, length: int) -> str:
    """Return a name that any machine can show: ASCII letters, digits, `-` and `_`.

    Example:
        >>> plain_name("Sea Glass №7 \N{SPARKLES}", 16), plain_name("Crème brûlée", 8)
        ('Sea_Glass_No7', 'Creme_br')
    """
    letters = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode("ascii")
    plain = "".join(c if c.isalnum() or c == "-" else "_" for c in letters)
    words = "_".join(word for word in plain.split("_") if word)
    return words[:length].strip("_-") or _PLAIN_NAME


def _blocks(pauses: int, format_: Format) -> int:
    return 1 if format_.name in _KEEPS_STOPS else pauses + 1


def _library_rows(records: Records, format_: Format) -> list[tuple[int, int, int]]:
    """Write the records as the library's rows of x, y, command, the end included."""
    command = _COMMAND[records.op]
    if format_.name in _KEEPS_STOPS:
        command = np.where(records.op == Op.PAUSE, STOP, command)
    xy = records.xy_units
    if format_.name == "dst":
        xy, command = _cuts_as_jumps(xy, command)
    last = xy[-1:]
    if format_.name == "vp3":
        xy, command = _with_even_bounds(xy, command)
    xy, command = np.concatenate([xy, last]), np.append(command, END)
    return list(zip(xy[:, 0].tolist(), xy[:, 1].tolist(), command.tolist(), strict=True))


def _cuts_as_jumps(xy: Units, command: NDArray[np.int64]) -> tuple[Units, NDArray[np.int64]]:
    """Write each cut as three small jumps, so that the header's count is that of the records.

    The library writes the same three from one row, and counts one.
    """
    is_cut = command == TRIM
    repeats = np.where(is_cut, 3, 1)
    shift = np.zeros(int(repeats.sum()), dtype=np.int64)
    first = (np.cumsum(repeats) - repeats)[is_cut]
    shift[first], shift[first + 1] = 2, -2
    cut_to_jump = np.where(is_cut, JUMP, command)
    return np.repeat(xy, repeats, axis=0) + shift[:, None], np.repeat(cut_to_jump, repeats)


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
