"""Bytes of a stitch file -> stitches in the field's own frame."""

from typing import Final

from stitchpath.errors import FormatError
from stitchpath.machine.codecs import CODECS
from stitchpath.machine.rows import FileStitches

MOST_BYTES: Final = 16 * 2**20
"""Far above any hooping (a million stitches sew for a day); a larger file only fills memory."""


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
    if name not in CODECS:
        raise FormatError(f"`{suffix}` is not a stitch format here: use {', '.join(CODECS)}")
    codec = CODECS[name]
    check_size(data, name)
    if not data.startswith(codec.start):
        raise FormatError(
            f"the bytes are not a {name} file: one begins with {codec.start.decode()}"
        )
    return codec.decode(data)


def check_size(data: bytes, name: str) -> None:
    """Refuse what is larger than any hooping.

    Raises:
        FormatError: It is.
    """
    if len(data) > MOST_BYTES:
        raise FormatError(
            f"the {name} file is larger than any hooping\nthe limit is {MOST_BYTES:,} bytes"
        )
