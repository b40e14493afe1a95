"""Stitch files of every kind that the library writes, as it writes them for anybody."""

import io
from collections.abc import Callable
from functools import cache

from pyembroidery import EmbPattern, EmbThread

KINDS = ("dst", "exp", "pes", "pec", "jef", "vp3", "u01", "xxx", "tbf")
"""Formats with a writer in the library, those that are text left out."""
TEXT_KINDS = ("csv", "json", "gcode")
"""Formats that are text, with a writer in the library."""
ZIGZAG = [(10 * n, 10 * (n % 2)) for n in range(40)]
"""Needle points of the first colour, tenths of a mm."""
SQUARE = [(0, 300), (25, 300), (25, 325), (0, 325), (0, 300)]
"""And of the second, after a cut."""


@cache
def file_of_kind(kind: str) -> bytes:
    """Return two colours with a cut between them, by the library's encoder."""
    pattern = EmbPattern()
    pattern.add_block(ZIGZAG, EmbThread("#2a6f77"))
    pattern.add_block(SQUARE, EmbThread("#c0392b"))
    write: Callable[..., None] = getattr(EmbPattern, f"write_{kind}")
    if kind == "json":
        text = io.StringIO()
        write(pattern, text, {})
        return text.getvalue().encode()
    stream = io.BytesIO()
    write(pattern, stream, {"date": "20000101000000"} if kind == "jef" else {})
    return stream.getvalue()
