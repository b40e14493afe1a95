"""Bytes of a dst file -> stitches, by the published table of the record.

Nothing is shared with the encoder: the table is written out as it is published and read bit by
bit. The header says nothing that the records do not say better, and is passed over.
"""

from itertools import repeat
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.machine.rows import FileStitches, Units, nth_in_run, places_after
from stitchpath.model.stitches import Op

_HEADER_BYTES: Final = 512
_JUMPS_OF_A_CUT: Final = 3  # common practice, no source: there is no command for a cut
# Source: http://www.achatina.de/sewing/main/DST.HTM, bit 7 first; y points up there.
_TABLE: Final = (
    "y+1 y-1 y+9 y-9 x-9 x+9 x-1 x+1",
    "y+3 y-3 y+27 y-27 x-27 x+27 x-3 x+3",
    "jump colour y+81 y-81 x-81 x+81 set set",
)
# What the third byte says, by the bits that are set; the first match counts, and without one it
# is a stitch. Source: edutechwiki.unige.ch/en/Embroidery_format_DST (end; 43 turns sequins on
# or off, and jumps in between place one). A sequin is no sewing: only its move counts.
_SEQUINS, _SEQUIN, _END = 4, 5, 6
_MARKS: Final = ((0xF3, _END), (0xC3, Op.PAUSE), (0x43, _SEQUINS), (0x83, Op.JUMP))


def _steps_by_byte(axis: str, row: str) -> NDArray[np.int16]:
    """Return what each value of a byte adds to x or to y, y down."""
    steps = np.zeros(256, dtype=np.int16)
    for bit, word in enumerate(row.split()[::-1]):  # bit 0 first
        if word[0] == axis:
            step = int(word[1:]) * (1 if axis == "x" else -1)
            steps[np.arange(256) >> bit & 1 == 1] += step
    return steps


_STEPS: Final = [[_steps_by_byte(axis, row) for row in _TABLE] for axis in "xy"]
_KINDS: Final = np.full(256, Op.STITCH, dtype=np.uint8)
for _bits, _kind in reversed(_MARKS):
    _KINDS[np.arange(256) & _bits == _bits] = _kind


def decode_dst(data: bytes) -> FileStitches:
    """Return what a dst file says, up to its end's mark or the last whole record.

    Three jumps or more in one way are read as a cut before them; jumps that lead back to where
    they began are left out. Nothing is refused: any bytes after the header are records.
    """
    body = _body(data)
    kind = _KINDS.take(body[2])
    kind = kind[: _end(kind)]
    body = body[:, : len(kind)]
    places = places_after(map(_steps, repeat(body), _STEPS), len(kind))
    _mark_sequins(kind)
    return _read_jumps(kind, places)


def records_of_dst(data: bytes) -> tuple[int, bool]:
    """Return how many records a dst file has, its end's included, and whether it has one."""
    kind = _KINDS.take(_body(data)[2])
    end = _end(kind)
    ended = end < len(kind)
    return end + ended, ended


def _body(data: bytes) -> NDArray[np.uint8]:
    """Return the three bytes of each record, shape (3, n)."""
    body = np.frombuffer(data, dtype=np.uint8)[_HEADER_BYTES:]
    return body[: len(body) // 3 * 3].reshape(-1, 3).T


def _steps(body: NDArray[np.uint8], tables: list[NDArray[np.int16]]) -> NDArray[np.int16]:
    """Return each record's step along an axis."""
    first, second, third = (table.take(of) for table, of in zip(tables, body, strict=True))
    return np.asarray(first + second + third)


def _end(kind: NDArray[np.uint8]) -> int:
    ends = np.flatnonzero(kind == _END)
    return int(ends[0]) if len(ends) else len(kind)


def _mark_sequins(kind: NDArray[np.uint8]) -> None:
    """Mark the jumps that place a sequin, in place."""
    turns = np.flatnonzero(kind == _SEQUINS)
    if len(turns):
        is_on = np.cumsum(kind == _SEQUINS) % 2 == 1
        kind[(kind == Op.JUMP) & is_on] = _SEQUIN


def _read_jumps(kind: NDArray[np.uint8], places: Units) -> FileStitches:
    """Leave out the jumps that lead back, and put cuts before the ways of enough jumps."""
    loose = np.flatnonzero((kind == Op.JUMP) | (kind == _SEQUINS))
    before = loose - nth_in_run(loose) - 1  # the row that a way starts from, or -1
    is_jump = kind[loose] == Op.JUMP
    jumps, before = loose[is_jump], before[is_jump]
    first = np.flatnonzero(np.diff(before, prepend=-2))  # jump of each way
    count = np.diff(first, append=len(jumps))
    is_kept = kind <= Op.PAUSE
    steps = places[jumps] - places[jumps - 1]
    steps[jumps == 0] = places[:1]
    is_kept[jumps[_leads_back(steps, first, count)]] = False
    start = before[first]
    # With no thread sewn since the start or a change of colour there is nothing to cut.
    cut = (count >= _JUMPS_OF_A_CUT) & (start >= 0) & (kind[start] != Op.PAUSE)
    return _with_cuts(kind, places, np.flatnonzero(is_kept), jumps[first[cut]])


def _leads_back(
    steps: Units, first: NDArray[np.intp], count: NDArray[np.intp]
) -> NDArray[np.bool_]:
    """Tell the jumps up to the last in each way that ends where the way began."""
    at, way = np.arange(len(steps)), np.repeat(np.arange(len(first)), count)
    gone = np.cumsum(steps, axis=0)
    gone -= (gone - steps)[first][way]
    is_back = (gone[:, 0] == 0) & (gone[:, 1] == 0)
    last = np.full(len(first), -1)
    last[way[is_back]] = at[is_back]  # of several in a way the last one counts
    return at <= last[way]


def _with_cuts(
    kind: NDArray[np.uint8],
    places: Units,
    rows: NDArray[np.intp],
    cut_before: NDArray[np.intp],
) -> FileStitches:
    """Return the rows, with a cut before some of them where the row before is."""
    at = np.searchsorted(rows, cut_before)
    rows = np.insert(rows, at, cut_before - 1)
    op = kind[rows]
    op[at + np.arange(len(at))] = Op.CUT
    return FileStitches(xy_units=places.take(rows, axis=0), op=op)
