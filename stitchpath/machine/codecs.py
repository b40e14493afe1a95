"""How each format is written and read: two by tables of our own, five through the library."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Final

from stitchpath.machine.dst_decode import decode_dst
from stitchpath.machine.dst_encode import encode_dst
from stitchpath.machine.exp import decode_exp, encode_exp
from stitchpath.machine.rows import FileStitches, Label, Records


@dataclass(frozen=True, slots=True, kw_only=True)
class Codec:
    """How one format is written and read.

    Attributes:
        encode: Records -> bytes; the same records give the same bytes.
        decode: Bytes -> what they say.
        start: The bytes that a file begins with; none where the format has no mark.
    """

    encode: Callable[[Records, Label], bytes]
    decode: Callable[[bytes], FileStitches]
    start: bytes = b""


def _encode(records: Records, label: Label, *, name: str) -> bytes:
    from stitchpath.machine.library import encode_by_library  # noqa: PLC0415 - slow to import

    return encode_by_library(records, label, name=name)


def _decode(data: bytes, *, name: str) -> FileStitches:
    from stitchpath.machine.library_read import decode_by_library  # noqa: PLC0415 - the same

    return decode_by_library(data, name=name)


def _by_library(name: str, *, start: bytes = b"") -> Codec:
    return Codec(
        encode=partial(_encode, name=name), decode=partial(_decode, name=name), start=start
    )


CODECS: Final[dict[str, Codec]] = {
    "dst": Codec(encode=encode_dst, decode=decode_dst, start=b"LA:"),
    "exp": Codec(encode=encode_exp, decode=decode_exp),
    "pes": _by_library("pes", start=b"#PES"),
    "jef": _by_library("jef"),
    "vp3": _by_library("vp3", start=b"%vsm%"),
    "u01": _by_library("u01"),
    "xxx": _by_library("xxx"),
}
"""By the format's name."""
