"""exp files: no header; two signed bytes a stitch, x and y up; 80 and a kind before the rest.

Source: hwiegman.home.xs4all.nl/fileformats, the text on the expanded (exp) format, and
edutechwiki.unige.ch/en/Embroidery_format_EXP. They differ on 80 02 (a jump; a stitch): it is
never written, and read as a stitch. 80 80 for a cut is common practice; the second page calls
it the end.
"""

from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.machine.rows import (
    FileStitches,
    Label,
    Records,
    nth_in_run,
    places_after,
    steps_within,
)
from stitchpath.model.stitches import Op

_LONGEST: Final = 127  # -128 is the mark
_HEADS: Final = np.zeros((len(Op), 2), dtype=np.uint8)
_HEADS[[Op.JUMP, Op.CUT, Op.PAUSE]] = [[0x80, 0x04], [0x80, 0x80], [0x80, 0x01]]
_AFTER_A_CUT: Final = (0x07, 0x00)  # no step, whatever it says

_MARK: Final = -0x80
_KNOWN: Final = (0x01, 0x02, 0x04, 0x80)
_NOTHING: Final = 255
_AT_HEAD: Final = np.full(256, _NOTHING, dtype=np.uint8)  # what a mark's kind says at once
_AT_HEAD[[0x01, 0x80]] = [Op.PAUSE, Op.CUT]
_AT_STEP: Final = np.full(256, _NOTHING, dtype=np.uint8)  # and where its step ends
_AT_STEP[[0x01, 0x02, 0x04]] = [Op.JUMP, Op.STITCH, Op.JUMP]


def encode_exp(records: Records, _label: Label) -> bytes:
    """Return an exp file; a pause is written as a change of colour.

    Raises:
        ValueError: A step is longer than 12.7 mm (a caller's bug).
    """
    steps = steps_within(records, _LONGEST)
    steps[:, 1] *= -1
    pairs = steps.astype(np.uint8)
    others = np.flatnonzero(records.op != Op.STITCH)
    kinds = records.op[others]
    pairs[others[kinds == Op.CUT]] = _AFTER_A_CUT
    words = np.insert(
        pairs.view(np.uint16).ravel(), others, _HEADS[kinds].view(np.uint16).ravel()
    )
    return words.tobytes()


def decode_exp(data: bytes) -> FileStitches:
    """Return what an exp file says, up to the first mark that is unknown or cut short.

    Nothing is refused: any bytes are stitches.
    """
    pairs, heads = _whole_pairs(data)
    kinds = pairs[heads, 1].view(np.uint8)
    steps = pairs.astype(np.int16)
    steps[:, 1] *= -1
    steps[heads] = 0
    steps[heads[_AT_HEAD[kinds] == Op.CUT] + 1] = 0
    op = np.full(len(pairs), Op.STITCH, dtype=np.uint8)
    op[heads], op[heads + 1] = _AT_HEAD[kinds], _AT_STEP[kinds]
    still = (_AT_HEAD[kinds] == Op.PAUSE) & ~steps[heads + 1].any(axis=1)
    op[heads[still] + 1] = _NOTHING
    rows = np.flatnonzero(op != _NOTHING)
    places = places_after(steps.T, len(steps))
    return FileStitches(xy_units=places.take(rows, axis=0), op=op[rows])


def pairs_of_exp(data: bytes) -> tuple[int, bool]:
    """Return how many pairs of bytes are read, and whether an unknown mark ended that."""
    pairs = len(_whole_pairs(data)[0])
    kind = data[2 * pairs + 1 : 2 * pairs + 2]
    return pairs, bool(kind) and kind[0] not in _KNOWN


def _whole_pairs(data: bytes) -> tuple[NDArray[np.int8], NDArray[np.intp]]:
    """Return the pairs up to a mark that is unknown or cut short, and which are heads."""
    pairs = np.frombuffer(data[: len(data) // 2 * 2], dtype=np.int8).reshape(-1, 2)
    marks = np.flatnonzero(pairs[:, 0] == _MARK)
    heads = marks[nth_in_run(marks) % 2 == 0]  # a mark right after a head is its step
    kinds = pairs[heads, 1].view(np.uint8)
    ends = heads[~np.isin(kinds, _KNOWN) | (heads == len(pairs) - 1)]
    pairs = pairs[: ends[0] if len(ends) else len(pairs)]
    return pairs, heads[heads < len(pairs)]
