"""Is a file whole, and does its header agree with what is in it?

The library's readers end without a word where the data ends, see docs/stitch-files.md; so what
a format declares is held here against what was read. Offsets are those of the library's writers
and readers (pyembroidery 1.5.1); those of dst are published, see `dst_encode`.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np

from stitchpath.geometry.tolerance import GRID_MM, STATED_SIZE_MM
from stitchpath.machine.content import XXX_END, number_at
from stitchpath.machine.dst_decode import records_of_dst
from stitchpath.machine.exp import pairs_of_exp
from stitchpath.machine.rows import FileStitches


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """Something that is not right with a file.

    Attributes:
        text: One fact.
        cut_short: Whether it means that the file's end is missing.
    """

    text: str
    cut_short: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Soundness:
    """What a file's own marks say of it.

    Attributes:
        whole: Whether its end is there; None where the format has nothing to tell it by.
        faults: What is not right.
    """

    whole: bool | None
    faults: tuple[Fault, ...] = ()


def soundness(data: bytes, name: str, read: FileStitches) -> Soundness:
    """Return whether a file is whole, and what in it does not agree.

    Args:
        data: The whole file.
        name: Its format, a name in `NAMES`.
        read: What its reader made of it.

    Not promised: that a damaged file is noticed whose marks and counts still agree.
    """
    if name not in _CHECKS:
        return Soundness(whole=None)
    faults = tuple(_CHECKS[name](data, read))
    return Soundness(whole=not any(fault.cut_short for fault in faults), faults=faults)


_Faults = Iterator[Fault]
_NO_END: Final = Fault(text="there is no end mark", cut_short=True)


def _short(text: str) -> Fault:
    return Fault(text=text, cut_short=True)


def _check_dst(data: bytes, read: FileStitches) -> _Faults:
    records, ended = records_of_dst(data)
    if not ended:
        yield _NO_END
    yield from _check_stated(_stated(data, b"ST"), records, "records")
    right, left, above, below = (_stated(data, axis) for axis in (b"+X", b"-X", b"+Y", b"-Y"))
    if None not in {right, left, above, below}:
        yield from _check_size((right or 0) + (left or 0), (above or 0) + (below or 0), read)


def _check_tbf(data: bytes, read: FileStitches) -> _Faults:
    body = np.frombuffer(data, dtype=np.uint8)[0x600:]
    kinds = body[2 : len(body) // 3 * 3 : 3]
    if not (kinds == 0x8F).any():  # noqa: PLR2004 - the end mark
        yield _NO_END
    yield from _check_stated(_stated(data[0x80:], b"ST"), len(read.op) + 1, "records")


def _check_exp(data: bytes, _read: FileStitches) -> _Faults:
    pairs, unknown = pairs_of_exp(data)
    if unknown:
        yield Fault(
            text=f"byte {2 * pairs + 1:,} is a mark that exp does not have; "
            "what comes after it was not read"
        )
    elif 2 * pairs < len(data):
        yield _short("it ends in the middle of a stitch")


def _check_pes(data: bytes, read: FileStitches) -> _Faults:
    block = 8 if data.startswith(b"#PEC") else number_at(data, 8, 4)
    end = block + 512 + number_at(data, block + 514, 3)
    if end > len(data):
        yield _short(f"{end - len(data):,} bytes of its stitches are missing")
    elif b"\xff" not in data[end - 2 : end]:
        yield _NO_END
    width, height = (number_at(data, block + at, 2) for at in (520, 522))
    yield from _check_size(width, height, read)
    pictures = 48 // 8 * 38 * (number_at(data, block + 48, 1) + 2)
    if end <= len(data) < end + pictures and number_at(data, block + 48, 1) < 0xFF:  # noqa: PLR2004 - 255 is none
        yield _short("its small pictures are missing")


def _check_jef(data: bytes, read: FileStitches) -> _Faults:
    body = np.frombuffer(data, dtype=np.uint8)[number_at(data, 0, 4) :]
    pairs = body[: len(body) // 2 * 2].reshape(-1, 2)
    if not (pairs == (0x80, 0x10)).all(axis=1).any():
        yield _NO_END
    yield from _check_stated(number_at(data, 28, 4), len(pairs), "points")
    left, top, right, bottom = (number_at(data, at, 4, signed=True) for at in (36, 40, 44, 48))
    yield from _check_size(left + right, top + bottom, read)


def _check_vp3(data: bytes, read: FileStitches) -> _Faults:
    at = 8 + int.from_bytes(data[6:8], "big") + 3  # magic, who wrote it, 00 02 00
    end = at + 4 + int.from_bytes(data[at : at + 4], "big")
    if end > len(data):
        yield _short(f"{end - len(data):,} bytes of its stitches are missing")
    at += 6 + int.from_bytes(data[at + 4 : at + 6], "big")
    right, up, left, down = (
        int.from_bytes(data[start : start + 4], "big", signed=True)
        for start in range(at, at + 16, 4)
    )
    yield from _check_size((right - left) // 100, (up - down) // 100, read)


def _check_u01(data: bytes, read: FileStitches) -> _Faults:
    body = np.frombuffer(data, dtype=np.uint8)[0x100:]
    kinds = body[: len(body) // 3 * 3 : 3] & 0x1F
    ends = np.flatnonzero(kinds >= 0x18)  # noqa: PLR2004 - the end mark; what is above is none
    if not len(ends) or kinds[ends[0]] != 0x18:  # noqa: PLR2004
        yield _NO_END
    stated = number_at(data, 0x8C, 4)
    yield from _check_stated(stated, int(ends[0]) + 1 if len(ends) else len(kinds), "records")
    left, top, right, bottom = (
        number_at(data, at, 2, signed=True) for at in (0x80, 0x82, 0x84, 0x86)
    )
    yield from _check_size(right - left, bottom - top, read)


def _check_xxx(data: bytes, read: FileStitches) -> _Faults:
    if number_at(data, XXX_END, 4) > len(data):
        yield _short("its stitches should end after its own end")
    yield from _check_size(number_at(data, 0x2D, 2), number_at(data, 0x2F, 2), read)


def _check_hus(data: bytes, read: FileStitches) -> _Faults:
    yield from _check_stated(number_at(data, 4, 4), len(read.op) + 1, "stitches")


_CHECKS: Final[dict[str, Callable[[bytes, FileStitches], _Faults]]] = {
    "dst": _check_dst,
    "exp": _check_exp,
    "pes": _check_pes,
    "pec": _check_pes,
    "jef": _check_jef,
    "vp3": _check_vp3,
    "u01": _check_u01,
    "xxx": _check_xxx,
    "tbf": _check_tbf,
    "hus": _check_hus,
}


def _stated(data: bytes, field: bytes) -> int | None:
    """Return a number of a header that is text, or None."""
    found = re.search(re.escape(field) + rb":\s*(\d{1,9})\s", data[:512])
    return int(found[1]) if found else None


def _check_stated(stated: int | None, found: int, what: str) -> _Faults:
    """Find fault where there is less than stated; whether the end counts is taken both ways."""
    if stated is not None and found < stated - 1:
        yield _short(f"its header states {stated:,} {what}, and there are {found:,}")


def _check_size(width: int, height: int, read: FileStitches) -> _Faults:
    """Find fault with a stated size, tenths of a mm, that is not that of the stitches.

    A size of nothing states nothing. Writers differ in whether moves and the start count.
    """
    if not len(read.xy_units) or not (width or height):
        return
    with_start = np.concatenate([read.xy_units, np.zeros((1, 2), dtype=np.int64)])
    room = STATED_SIZE_MM / GRID_MM
    sizes = [
        np.ptp(xy, axis=0)
        for xy in (read.needle_points_units, read.xy_units, with_start)
        if len(xy)
    ]
    if not any((np.abs(size - (width, height)) <= room).all() for size in sizes):
        x, y = (sizes[0] * GRID_MM).tolist()
        stated = f"{width * GRID_MM:.1f} x {height * GRID_MM:.1f} mm"
        yield Fault(
            text=f"its header states a size of {stated}, "
            f"and the stitches take {x:.1f} x {y:.1f} mm"
        )
