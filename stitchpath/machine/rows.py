"""Columns that go into a file and come out of one."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any, TypeAlias

import numpy as np
from numpy.typing import NDArray

from stitchpath.model.stitches import Op

Units: TypeAlias = NDArray[np.signedinteger[Any]]
"""Places, shape (n, 2), tenths of a mm from the field's centre, y down."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Records:
    """One row for each record of a file.

    Attributes:
        xy_units: Where, shape (n, 2), int32, tenths of a mm from the field's centre, y down.
        op: What, shape (n,), uint8, values of `Op`; a jump is one hop.
    """

    xy_units: Units
    op: NDArray[np.uint8]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class FileStitches:
    """What a stitch file says, in order.

    Attributes:
        xy_units: Where, shape (n, 2), tenths of a mm from the field's centre, y down.
        op: What, shape (n,), uint8, values of `Op`; a pause is a stop or a change of colour.
        stops: Which rows are stops with the same thread, ascending; any other pause is a change
            of colour.
        colours: Of the colour blocks, as `#rrggbb`, where the file tells them; there may be
            more or fewer of them than blocks.
    """

    xy_units: Units
    op: NDArray[np.uint8]
    stops: NDArray[np.intp] = field(default_factory=lambda: np.empty(0, dtype=np.intp))
    colours: tuple[str, ...] = ()

    @property
    def needle_points_units(self) -> Units:
        """The places where the needle goes down, shape (m, 2), tenths of a mm."""
        return needle_points(self.xy_units, self.op)

    @property
    def colour_blocks(self) -> int:
        """How many stretches of stitches the changes of colour part."""
        changes = np.setdiff1d(np.flatnonzero(self.op == Op.PAUSE), self.stops)
        stitches = np.flatnonzero(self.op == Op.STITCH)
        return len(np.unique(np.searchsorted(changes, stitches)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """What a file shows besides its stitches, where the format has room for it.

    Attributes:
        name: The design's name, plain and no longer than the format holds.
        colour: The top thread as `#rrggbb`.
    """

    name: str
    colour: str


def needle_points(units: Units, op: NDArray[np.uint8]) -> Units:
    """Return the places of the stitches among the rows, shape (m, 2)."""
    # take() by rows is nine times as fast as a mask over pairs
    return units.take(np.flatnonzero(op == Op.STITCH), axis=0)


def gaps_of(op: NDArray[np.uint8], kind: Op) -> NDArray[np.intp]:
    """Return how many stitches stand before each row of a kind; not for stitches themselves.

    Example:
        >>> gaps_of(np.array([1, 0, 2, 1, 1, 0, 3], dtype=np.uint8), Op.JUMP).tolist()
        [0, 1, 1]
    """
    others = np.flatnonzero(op != Op.STITCH)
    gaps: NDArray[np.intp] = (others - np.arange(len(others)))[op[others] == kind]
    return gaps


def nth_in_run(rows: NDArray[np.intp]) -> NDArray[np.intp]:
    """Number each of some ascending rows within its unbroken run, from 0.

    Example:
        >>> nth_in_run(np.array([3, 4, 5, 9])).tolist()
        [0, 1, 2, 0]
    """
    at = np.arange(len(rows))
    broken = np.diff(rows, prepend=-2) != 1
    nth: NDArray[np.intp] = at - np.maximum.accumulate(np.where(broken, at, 0))
    return nth


def steps_within(records: Records, longest: int) -> Units:
    """Return each row's way from the row before, shape (n, 2), the first from (0, 0).

    Raises:
        ValueError: A step along an axis is longer than `longest`, units (a caller's bug:
            `make_records` keeps to the format).
    """
    steps = records.xy_units.copy()
    steps[1:] -= records.xy_units[:-1]
    if max(steps.max(), -steps.min()) > longest:
        raise ValueError(f"a step is longer than {longest} units")
    return steps


def places_after(steps: Iterable[NDArray[np.int16]], count: int) -> Units:
    """Return the places after each step, shape (count, 2), from the steps along each axis.

    Args:
        steps: For x and for y, shape (count,), none longer than 255.
        count: How many there are.
    """
    is_few = count < np.iinfo(np.int32).max >> 8  # so that no sum of them is too large
    places = np.empty((count, 2), dtype=np.int32 if is_few else np.int64)
    for axis, along in enumerate(steps):
        np.cumsum(along, out=places[:, axis])
    return places
