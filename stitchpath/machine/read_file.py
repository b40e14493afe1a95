"""The one way to read a stitch file of any kind: format, stitches, what is wrong with it."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, TypeAlias

from stitchpath.errors import FormatError
from stitchpath.machine.content import (
    MARKED,
    format_by_content,
    format_by_name,
    is_named_otherwise,
)
from stitchpath.machine.decode import check_size
from stitchpath.machine.dst_decode import decode_dst
from stitchpath.machine.exp import decode_exp
from stitchpath.machine.line_gcode import MARK as LINES_MARK
from stitchpath.machine.points_text import decode_csv, decode_json
from stitchpath.machine.rows import FileStitches
from stitchpath.machine.soundness import Fault, Soundness, soundness

Decode: TypeAlias = Callable[[bytes, str], FileStitches]
"""Reads bytes as the named format through the library; raises `FormatError`."""

_OWN: Final[dict[str, Callable[[bytes], FileStitches]]] = {
    "dst": decode_dst,
    "exp": decode_exp,
    "csv": decode_csv,
    "json": decode_json,
}
"""Formats read without the library, in memory and time bounded by the file's size."""
_ALWAYS_OWN: Final = frozenset({"dst", "exp"})
"""Of the others only files that begin as ours do: there are many kinds of csv and json."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class StitchFile:
    """What a stitch file says.

    Attributes:
        format: Its format's name, such as `dst`.
        read: What it says; at least one needle point.
        sound: Whether it is whole, and what in it does not agree.
    """

    format: str
    read: FileStitches
    sound: Soundness


def read_stitch_file(data: bytes, suffix: str, *, by_library: Decode) -> StitchFile:
    """Return what a stitch file says, whatever it is called.

    Args:
        data: The whole file.
        suffix: What its name ends in; the content is believed rather than the name.
        by_library: Reads the formats that take a reader that is not trusted.

    Raises:
        FormatError: Nothing tells its format, it cannot be read, or it holds no stitches.
    """
    by_name, by_content = format_by_name(suffix), format_by_content(data)
    odd = is_named_otherwise(by_name, by_content)
    name = by_content if odd else by_name
    if name is None:
        raise FormatError(
            "neither its name nor its content says what kind of stitch file it is"
        )
    check_size(data, name)
    if name in MARKED and by_content is None:
        raise FormatError(f"it does not begin as a {name} file does")
    if data.startswith(LINES_MARK):
        raise FormatError("it holds lines to follow, and no needle points")
    own = _OWN.get(name) if name == by_content or name in _ALWAYS_OWN else None
    read = own(data) if own else by_library(data, name)
    if not len(read.needle_points_units):
        raise FormatError(f"read as {name}, it holds no stitches")
    sound = soundness(data, name, read)
    if odd and by_name is not None:
        told = Fault(text=f"it is a {name} file by its content, whatever its name says")
        sound = Soundness(whole=sound.whole, faults=(told, *sound.faults))
    return StitchFile(format=name, read=read, sound=sound)
