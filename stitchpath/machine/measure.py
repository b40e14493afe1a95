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
    after the last. A jump to where the needle is already is none.

    Raises:
        ValueError: There is no needle point (a caller's bug).
    """
    rows = sewn_rows(read)
    op = read.op[rows]
    op[0] = Op.JUMP
    xy = read.xy_units.take(rows, axis=0).astype(np.float64) / STEPS_PER_MM
    return Stitches(xy=xy, op=op, tie=np.zeros(len(op), dtype=bool))


def sewn_rows(read: FileStitches) -> NDArray[np.intp]:
    """Return the rows of a file that are sewn; the first stands for the move to it.

    Raises:
        ValueError: There is no needle point (a caller's bug).
    """
    stitches = np.flatnonzero(read.op == Op.STITCH)
    if not len(stitches):
        raise ValueError("a file without needle points sews nothing")
    rows = np.concatenate([stitches[:1], np.arange(stitches[0], stitches[-1] + 1)])
    moved = (np.diff(read.xy_units.take(rows, axis=0), axis=0, prepend=0) != 0).any(axis=1)
    moved[0] = True
    is_jump = read.op[rows] == Op.JUMP
    return np.asarray(rows[moved | ~is_jump])


def measure(read: FileStitches) -> Measures:
    """Return what a file's needle points come to.

    Raises:
        ValueError: There is none (a caller's bug).
    """
    points = read.needle_points_units
    if not len(points):
        raise ValueError("a file without needle points has no measures")
    lengths = sewn_part(read).sewn_lengths
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
    column, row = ((points - least) // cell).T
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
