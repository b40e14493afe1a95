"""Needle points and commands, in columns."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, frozen_points, parts_of
from stitchpath.model.line import Line


class Op(IntEnum):
    """What the machine does at a row of `Stitches`."""

    STITCH = 0
    """The needle goes down here: the only op that counts as a stitch."""
    JUMP = 1
    """The frame moves here without sewing."""
    CUT = 2
    """The machine cuts the thread; the place is that of the row before."""
    PAUSE = 3
    """The machine stops for the maker; the place is that of the row before."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Stitches:
    """What the needle does in one hooping, in order.

    Attributes:
        xy: Where, shape (n, 2), mm, in the piece's frame.
        op: What, shape (n,), uint8, values of `Op`.
        tie: Whether the row belongs to a tie, shape (n,), bool.
    """

    xy: Points
    op: NDArray[np.uint8]
    tie: NDArray[np.bool_]

    def __post_init__(self) -> None:
        """Keep read-only copies; the columns are equally long."""
        object.__setattr__(self, "xy", frozen_points(self.xy))
        for name, dtype in (("op", np.uint8), ("tie", np.bool_)):
            column = np.array(getattr(self, name), dtype=dtype)
            column.setflags(write=False)
            object.__setattr__(self, name, column)
        if not self.op.shape == self.tie.shape == self.xy.shape[:1]:
            raise ValueError("the columns of stitches are equally long")

    def __len__(self) -> int:
        """Count the rows."""
        return len(self.op)

    @property
    def needle_points(self) -> Points:
        """The places where the needle goes down, shape (m, 2), mm."""
        return np.asarray(self.xy[self.op == Op.STITCH])

    @property
    def stitch_rows(self) -> NDArray[np.intp]:
        """Rows of needle points that follow on a needle point, shape (k, 2): before, at.

        A jump between two needle points parts them; a pause does not.
        """
        return np.concatenate([np.empty((0, 2), dtype=np.intp), *self.parts_of_stitch_rows()])

    @property
    def sewn_lengths(self) -> NDArray[np.float64]:
        """The length of each stitch, from needle point to needle point, shape (k,), mm."""
        lengths = [np.empty(0)]
        for rows in self.parts_of_stitch_rows():
            steps = self.xy.take(rows[:, 1], axis=0) - self.xy.take(rows[:, 0], axis=0)
            lengths.append(np.hypot(steps[:, 0], steps[:, 1]))
        return np.concatenate(lengths)

    def parts_of_stitch_rows(self) -> Iterator[NDArray[np.intp]]:
        """Yield `stitch_rows` in parts, for what would take much memory for all at once."""
        last = np.empty(0, dtype=np.intp)  # the row, if any, that the next part goes on from
        for part in parts_of(len(self)):
            op = self.op[part]
            here = np.flatnonzero((op == Op.STITCH) | (op == Op.JUMP)) + part.start
            rows = np.concatenate([last, here])
            is_point = self.op[rows] == Op.STITCH
            sewn = np.flatnonzero(is_point[1:] & is_point[:-1])
            yield np.column_stack([rows[sewn], rows[sewn + 1]])
            last = rows[-1:]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Run:
    """Lines sewn without cutting the thread, in order and each in its direction.

    Where one line begins on the end of the line before, sewing just goes on; where it does not,
    the needle hops over with the thread uncut.
    """

    lines: tuple[Line, ...]
