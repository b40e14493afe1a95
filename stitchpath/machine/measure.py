"""What a stitch file's needle points come to: extents, stitch lengths, crowded places."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.tolerance import CROWDED_CELL_MM, GRID_MM, STEPS_PER_MM
from stitchpath.machine.rows import FileStitches, Units
from stitchpath.model.stitches import Op, Stitches

MOST_IN_A_CELL: Final = 8
"""Needle points in a square of 2 mm from which on it is crowded: so many needle holes weaken
cloth and break thread. Common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Crowds:
    """Where the needle goes down too often, by a count over a grid of squares.

    Attributes:
        squares: How many are crowded.
        most: Needle points in the fullest square.
        at: Its middle, mm from the file's origin.
    """

    squares: int
    most: int
    at: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measures:
    """What a file's needle points come to, mm.

    Attributes:
        bounds: Left, top, right and bottom, from the file's origin, y down.
        longest: The longest stitch; 0 where there is none.
        shortest: The shortest stitch; 0 where there is none, or one on the spot.
        crowds: Crowded places.
    """

    bounds: tuple[float, float, float, float]
    longest: float
    shortest: float
    crowds: Crowds

    @property
    def size(self) -> tuple[float, float]:
        """Width and height."""
        left, top, right, bottom = self.bounds
        return round(right - left, 1), round(bottom - top, 1)


def sewn_part(read: FileStitches) -> Stitches:
    """Return what a file sews, as a plan has it, in the file's own frame, mm.

    It begins with the move to the first needle point, which some formats leave out, and ends
    with the last one: no thread is cut before the first, and writers differ in what they put
    after the last. A jump to where the needle is already is none, nor is a cut with nothing
    sewn since the one before: some formats cut at each hop of a long way. Others have no mark
    for the way after a cut; as nothing is sewn on it, it is a jump.

    Raises:
        ValueError: There is no needle point (a caller's bug).
    """
    rows, op = _sewn(read)
    xy = read.xy_units.take(rows, axis=0).astype(np.float64) / STEPS_PER_MM
    return Stitches(xy=xy, op=op, tie=np.zeros(len(op), dtype=bool))


def sewn_rows(read: FileStitches) -> NDArray[np.intp]:
    """Return which row of a file each row of `sewn_part` is, or for a jump the one it leads to.

    Raises:
        ValueError: There is no needle point (a caller's bug).
    """
    return _sewn(read)[0]


def _sewn(read: FileStitches) -> tuple[NDArray[np.intp], NDArray[np.uint8]]:
    stitches = np.flatnonzero(read.op == Op.STITCH)
    if not len(stitches):
        raise ValueError("a file without needle points sews nothing")
    rows = np.concatenate([stitches[:1], np.arange(stitches[0], stitches[-1] + 1)])
    op = read.op[rows]
    op[0] = Op.JUMP
    idle = (op == Op.JUMP) & ~_moved(read.xy_units, rows, op)
    rows, op = (column[~(idle | _cuts_again(op))] for column in (rows, op))
    unmarked = np.flatnonzero(_follows_a_cut(op) & _moved(read.xy_units, rows, op))
    rows = np.insert(rows, unmarked, rows[unmarked])
    return rows, np.insert(op, unmarked, Op.JUMP)


def _moved(xy_units: Units, rows: NDArray[np.intp], op: NDArray[np.uint8]) -> NDArray[np.bool_]:
    """Tell the stitches and jumps that are not where the one before is; the first is not."""
    moves = np.flatnonzero((op == Op.STITCH) | (op == Op.JUMP))
    steps = np.diff(xy_units.take(rows[moves], axis=0), axis=0)
    moved = np.zeros(len(op), dtype=bool)
    moved[0] = True
    moved[moves[1:]] = (steps != 0).any(axis=1)
    return moved


def _cuts_again(op: NDArray[np.uint8]) -> NDArray[np.bool_]:
    """Tell the cuts that no stitch stands before, back to another cut."""
    again = np.zeros(len(op), dtype=bool)
    cuts = np.flatnonzero(op == Op.CUT)
    sewn = np.cumsum(op == Op.STITCH)[cuts]
    again[cuts] = np.diff(sewn, prepend=0) == 0
    return again


def _follows_a_cut(op: NDArray[np.uint8]) -> NDArray[np.bool_]:
    """Tell the stitches with nothing but pauses between a cut and them."""
    follows = np.zeros(len(op), dtype=bool)
    moves = np.flatnonzero(op != Op.PAUSE)
    kinds = op[moves]
    follows[moves[1:]] = (kinds[1:] == Op.STITCH) & (kinds[:-1] == Op.CUT)
    return follows


def measure(read: FileStitches, sewn: Stitches) -> Measures:
    """Return what a file's needle points come to.

    Args:
        read: The file; at least one needle point.
        sewn: What it sews, by `sewn_part`.
    """
    points = read.needle_points_units
    lengths = sewn.sewn_lengths
    left, top, right, bottom = (
        round(edge * GRID_MM, 1)
        for edge in (*points.min(axis=0).tolist(), *points.max(axis=0).tolist())
    )
    return Measures(
        bounds=(left, top, right, bottom),
        longest=round(float(lengths.max(initial=0.0)), 3),
        shortest=round(float(lengths.min()), 3) if len(lengths) else 0.0,
        crowds=_crowds(points),
    )


def _crowds(points: Units) -> Crowds:
    cell = round(CROWDED_CELL_MM / GRID_MM)
    least = points.min(axis=0)
    column, row = ((points - least) // cell).astype(np.int64).T
    columns = int(column.max()) + 1
    cells, counts = np.unique(row * columns + column, return_counts=True)
    fullest = int(counts.argmax())
    at = np.array(divmod(int(cells[fullest]), columns)[::-1])
    x, y = ((at + 0.5) * cell + least) * GRID_MM
    return Crowds(
        squares=int(np.count_nonzero(counts > MOST_IN_A_CELL)),
        most=int(counts[fullest]),
        at=(round(float(x), 1), round(float(y), 1)),
    )
