"""What goes into a file, as integers: positions in tenths of a mm, jumps cut into short hops.

Between two needle points the order is always: one cut, pauses, jumps. A format's limits are
checked here; nothing is ever split or shortened to make it fit.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.catalog.formats import Format
from stitchpath.errors import FormatError
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.model.hooping import Hooping
from stitchpath.model.stitches import Op, Stitches

Units = NDArray[np.int64]
_RANK: Final = np.array([3, 2, 0, 1])  # of stitch, jump, cut, pause within one gap
_PER_MM: Final = round(1 / GRID_MM)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Records:
    """One row for each record of a file.

    Attributes:
        xy_units: Where, shape (n, 2), tenths of a mm from the field's centre, y down.
        op: What, shape (n,), uint8, values of `Op`; a jump is one hop.
    """

    xy_units: Units
    op: NDArray[np.uint8]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Gaps:
    """What stands before each needle point: arrays of shape (m,), counts.

    Attributes:
        cuts: Thread cuts.
        pauses: Stops for the maker.
        jumps: Jumps, or hops.
    """

    cuts: NDArray[np.intp]
    pauses: NDArray[np.intp]
    jumps: NDArray[np.intp]


def count_gaps(op: NDArray[np.uint8]) -> Gaps:
    """Count the cuts, pauses and jumps before each stitch; what follows the last is left out.

    Example:
        >>> count_gaps(np.array([1, 0, 2, 1, 1, 0, 3], dtype=np.uint8)).jumps.tolist()
        [1, 2]
    """
    gap, stitches = _gap_of_rows(op), int(np.count_nonzero(op == Op.STITCH))
    cuts, pauses, jumps = (
        np.bincount(gap[op == kind], minlength=stitches + 1)[:stitches]
        for kind in (Op.CUT, Op.PAUSE, Op.JUMP)
    )
    return Gaps(cuts=cuts, pauses=pauses, jumps=jumps)


def round_to_units(stitches: Stitches, hooping: Hooping) -> Units:
    """Return every row's place in the field, shape (n, 2), rounded to tenths of a mm."""
    return np.rint(hooping.to_field(stitches.xy) * _PER_MM).astype(np.int64)


def make_records(units: Units, op: NDArray[np.uint8], format_: Format) -> Records:
    """Return the records that a file of the format is written from.

    Every jump is divided into equal hops within the format's longest step; so is the way to a
    stitch that no thread is sewn to (the first one, or one after a cut or a jump).

    Args:
        units: Places in the field, shape (n, 2), tenths of a mm.
        op: What is done there, shape (n,), values of `Op`.
        format_: What the file can hold.

    Raises:
        FormatError: A stitch is longer than the format holds, lies too far out, or there are
            too many of them; or there are no stitches at all.
        ValueError: A cut or a pause before the first stitch, or a pause after the last (a
            caller's bug: it has no meaning on a machine).
    """
    _check_order(op, format_)
    gap = _gap_of_rows(op)
    order = np.argsort(gap * len(Op) + _RANK[op], kind="stable")
    order = order[~_is_repeated_cut(op[order])]
    op, gap, place = op[order], gap[order], _places(units[order], op[order])
    before = np.concatenate([np.zeros((1, 2), dtype=np.int64), place[:-1]])
    reach = np.abs(place - before).max(axis=1)
    sewn = _is_sewn(op)
    _check_room(place, reach, sewn, format_)
    _check_counts(op, sewn, format_)
    hops = _hops(reach, sewn, format_)
    if format_.cut_records == 1:  # a cut is part of a jump, so that each needs one
        hops = _at_least_one_hop(hops, op, gap)
    return _expand(op, before, place, hops)


def _gap_of_rows(op: NDArray[np.uint8]) -> NDArray[np.intp]:
    """Number the gap each row stands in; a stitch closes its gap."""
    is_stitch = op == Op.STITCH
    gap: NDArray[np.intp] = np.cumsum(is_stitch) - is_stitch
    return gap


def _is_repeated_cut(op: NDArray[np.uint8]) -> NDArray[np.bool_]:
    """Tell the cuts right after a cut: there is nothing left to cut."""
    repeated = np.zeros(len(op), dtype=np.bool_)
    repeated[1:] = (op[1:] == Op.CUT) & (op[:-1] == Op.CUT)
    return repeated


def _places(units: Units, op: NDArray[np.uint8]) -> Units:
    """Give cuts and pauses the place of the row before."""
    moving = (op == Op.STITCH) | (op == Op.JUMP)
    rows = np.maximum.accumulate(np.where(moving, np.arange(len(op)), 0))
    return units[rows]


def _is_sewn(op: NDArray[np.uint8]) -> NDArray[np.bool_]:
    """Tell the rows that thread is sewn to: a stitch after a stitch, pauses not counting."""
    sewn = np.zeros(len(op), dtype=np.bool_)
    rows = np.flatnonzero(op != Op.PAUSE)
    sewn[rows[1:]] = (op[rows[1:]] == Op.STITCH) & (op[rows[:-1]] == Op.STITCH)
    return sewn


def _hops(reach: Units, sewn: NDArray[np.bool_], format_: Format) -> Units:
    if not format_.keeps_jumps and format_.cut_records is None:
        return np.zeros_like(reach)  # the format moves as it sews
    return np.where(sewn, 0, -(-reach // format_.longest_step_units))


def _at_least_one_hop(hops: Units, op: NDArray[np.uint8], gap: NDArray[np.intp]) -> Units:
    """Give the stitch after a cut a hop of no length where the gap has none."""
    cut = np.bincount(gap[op == Op.CUT], minlength=int(gap[-1]) + 1) > 0
    still = np.bincount(gap, weights=hops) == 0
    return np.where((op == Op.STITCH) & (cut & still)[gap], 1, hops)


def _expand(op: NDArray[np.uint8], before: Units, place: Units, hops: Units) -> Records:
    """Put every row's hops before it; a jump is nothing but its hops."""
    is_jump = op == Op.JUMP
    repeats = hops + ~is_jump
    row = np.repeat(np.arange(len(op)), repeats)
    nth = np.arange(len(row)) - np.repeat(np.cumsum(repeats) - repeats, repeats) + 1
    hopping = nth <= hops[row]
    parts = np.maximum(hops, 1)[row]
    share = np.where(hopping, nth, parts)[:, None]
    span, parts = (place - before)[row], parts[:, None]
    xy = before[row] + (2 * span * share + parts) // (2 * parts)  # half up; the last is exact
    return Records(xy_units=xy, op=np.where(hopping, np.uint8(Op.JUMP), op[row]))


def _check_order(op: NDArray[np.uint8], format_: Format) -> None:
    stitches = np.flatnonzero(op == Op.STITCH)
    if not len(stitches):
        raise FormatError(f"there is nothing to sew, so there is no {format_.name} file")
    if np.any(op[: stitches[0]] != Op.JUMP):
        raise ValueError("a cut or a pause comes after a stitch")
    if np.any(op[stitches[-1] :] == Op.PAUSE):
        raise ValueError("a pause stands between two stitches")


def _check_room(place: Units, reach: Units, sewn: NDArray[np.bool_], format_: Format) -> None:
    far = np.abs(place).max(axis=1)
    if far.max() > format_.farthest_units:
        row = int(far.argmax())
        raise FormatError(
            f"a {format_.name} file cannot say how far out the needle goes\n"
            f"the point at {_at(place[row])} is {far[row] / _PER_MM:.1f} mm from the centre\n"
            f"the limit is {format_.farthest_units / _PER_MM:.1f} mm along either axis\n"
            "use a smaller field or another format"
        )
    too_long = np.flatnonzero(sewn & (reach > format_.longest_step_units))
    if len(too_long):
        row = int(too_long[0])
        length, most = reach[row] / _PER_MM, format_.longest_step_mm
        raise FormatError(
            f"a stitch is too long for a {format_.name} file\n"
            f"it ends at {_at(place[row])} and goes {length:.1f} mm along one axis\n"
            f"the limit is {most:.1f} mm, {length - most:.1f} mm less\n"
            "choose a shorter stitch length"
        )


def _check_counts(op: NDArray[np.uint8], sewn: NDArray[np.bool_], format_: Format) -> None:
    pauses = int(np.count_nonzero(op == Op.PAUSE))
    if format_.most_pauses is not None and pauses > format_.most_pauses:
        raise FormatError(
            f"a {format_.name} file holds at most {format_.most_pauses} pauses, not {pauses}\n"
            "use fewer pauses or another format"
        )
    if format_.most_in_a_run is None:
        return
    unbroken = sewn & (np.roll(op, 1) == Op.STITCH)  # in one block with the stitch before
    starts = np.flatnonzero((op == Op.STITCH) & ~unbroken)
    ends = np.flatnonzero((op == Op.STITCH) & ~np.append(unbroken[1:], [False]))
    longest = int((ends - starts).max()) + 1
    if longest > format_.most_in_a_run:
        raise FormatError(
            f"a {format_.name} file holds at most {format_.most_in_a_run} stitches in a run, "
            f"not {longest}\nuse smaller hoopings or another format"
        )


def _at(units: Units) -> str:
    x, y = units / _PER_MM
    return f"x {x:.1f} mm, y {y:.1f} mm of the field"
