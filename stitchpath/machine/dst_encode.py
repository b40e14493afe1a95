"""Records -> bytes of a dst file: a header of 512 bytes, then three bytes a record.

A step along an axis is written in balanced ternary, the only way to make a number up to 121 of
1, 3, 9, 27 and 81 with each used once at most, forwards or back. The tables here serve writing
only; reading has its own, so that a slip in either shows when a file is read back.
"""

from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.machine.rows import Label, Records, Units, steps_within
from stitchpath.model.stitches import Op

_HEADER_BYTES: Final = 512
_LONGEST: Final = 121
# Bits of a record as of one number, the first byte lowest, by weight: forwards, back. Source of
# this and of the marks: the table in http://www.achatina.de/sewing/main/DST.HTM (y points up).
_X_BITS: Final = {1: (0, 1), 3: (8, 9), 9: (2, 3), 27: (10, 11), 81: (18, 19)}
_Y_UP_BITS: Final = {1: (7, 6), 3: (15, 14), 9: (5, 4), 27: (13, 12), 81: (21, 20)}
_SET: Final = 0x030000
_JUMP: Final = 0x830000
_COLOUR: Final = 0xC30000
_END: Final = 0xF30000  # edutechwiki.unige.ch/en/Embroidery_format_DST


def _words(bits: dict[int, tuple[int, int]]) -> NDArray[np.uint32]:
    """Return the bits of each step, by the step; a step back is found from the end."""
    words = np.zeros(2 * _LONGEST + 1, dtype=np.uint32)
    for step in range(-_LONGEST, _LONGEST + 1):
        left = step
        for weight, (forwards, back) in bits.items():  # the lightest first
            digit = (left // weight + 1) % 3 - 1
            left -= digit * weight
            words[step] |= (0, 1 << forwards, 1 << back)[digit]
    return words


_X: Final = _words(_X_BITS)
_Y_UP: Final = _words(_Y_UP_BITS)
_MARK: Final = np.zeros(len(Op), dtype=np.uint32)
_MARK[[Op.STITCH, Op.JUMP, Op.CUT, Op.PAUSE]] = [_SET, _JUMP, _JUMP, _COLOUR]
# There is no command for a cut; three small jumps that lead back are common practice.
_CUT: Final = [_X[step] | _Y_UP[-step] | np.uint32(_JUMP) for step in (2, -4, 2)]


def encode_dst(records: Records, label: Label) -> bytes:
    """Return a dst file; a pause is written as a change of colour.

    Raises:
        ValueError: A step is longer than 12.1 mm (a caller's bug).
    """
    steps = steps_within(records, _LONGEST)
    words = _X[steps[:, 0]] | _Y_UP[-steps[:, 1]] | _MARK.take(records.op)
    words = np.append(_with_cuts(words, records.op), np.uint32(_END))
    body = np.empty((len(words), 3), dtype=np.uint8)
    for byte in range(3):
        body[:, byte] = words >> 8 * byte
    pauses = int(np.count_nonzero(records.op == Op.PAUSE))
    return (
        _header(records.xy_units, label.name, count=len(body), pauses=pauses) + body.tobytes()
    )


def _with_cuts(words: NDArray[np.uint32], op: NDArray[np.uint8]) -> NDArray[np.uint32]:
    cuts = np.flatnonzero(op == Op.CUT)
    words = np.insert(words, np.repeat(cuts, 2), np.uint32(0))
    first = cuts + 2 * np.arange(len(cuts))
    words[first[:, None] + [0, 1, 2]] = _CUT
    return words


def _header(xy: Units, name: str, *, count: int, pauses: int) -> bytes:
    """Write the header, its count that of the records, its extents from the start, y up.

    Source: the header's table at community.kde.org/Projects/Liberty/File_Formats (fields,
    offsets and widths); edutechwiki.unige.ch/en/Embroidery_format_DST (what they mean).
    """
    (left, right), (above, below) = (
        (max(-int(along.min()), 0), max(int(along.max()), 0)) for along in xy.T
    )
    last_x, last_y = xy[-1].tolist()
    fields = (
        f"LA:{name:16}\rST:{count:7d}\rCO:{pauses:3d}\r"
        f"+X:{right:5d}\r-X:{left:5d}\r+Y:{above:5d}\r-Y:{below:5d}\r"
        f"AX:{_signed(last_x)}\rAY:{_signed(-last_y)}\rMX:+    0\rMY:+    0\rPD:******\r\x1a"
    )
    return fields.encode("ascii").ljust(_HEADER_BYTES)


def _signed(units: int) -> str:
    return f"{'-' if units < 0 else '+'}{abs(units):5d}"
