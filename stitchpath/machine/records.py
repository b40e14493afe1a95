"""What goes into a file, as integers: positions in tenths of a mm, jumps cut into short hops.

Between two needle points the order is always: one cut, pauses, jumps. A format's limits are
checked here; nothing is ever split or shortened to make it fit.
"""

from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.catalog.formats import Format
from stitchpath.errors import FormatError
from stitchpath.geometry.points import in_steps, parts_of
from stitchpath.geometry.tolerance import STEPS_PER_MM
from stitchpath.machine.rows import Records, Units, nth_in_run
from stitchpath.model.hooping import Hooping
from stitchpath.model.stitches import Op, Stitches

_RANK: Final = np.array([3, 2, 0, 1])  # of stitch, jump, cut, pause within one gap


def round_to_units(stitches: Stitches, hooping: Hooping) -> Units:
    """Return every row's place in the field, shape (n, 2), rounded to tenths of a mm.

    They are int32, or int64 where one lies farther out than any format can say.
    """
    units = np.empty(stitches.xy.shape, dtype=np.int32)
    for part in parts_of(len(units)):
        exact = in_steps(hooping.to_field(stitches.xy[part]))
        units[part] = exact
        if not np.array_equal(units[part], exact):
            return in_steps(hooping.to_field(stitches.xy))
    return units


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
    _check_room(units, format_)
    place, op = _in_order(units.astype(np.int32, copy=False), op)
    reach = _reach(place)
    sewn = _is_sewn(op)
    _check_steps(place, reach, sewn, format_)
    _check_counts(op, sewn, format_)
    hops = _hops(reach, sewn, format_)
    if format_.cut_records == 1:  # a cut is part of a jump, so that each needs one
        hops[_stitches_after_a_bare_cut(op, hops)] = 1
    records = _expand(op, place, hops)
    _check_length(records.op, format_)
    return records


def _in_order(units: Units, op: NDArray[np.uint8]) -> tuple[Units, NDArray[np.uint8]]:
    order = _order(op)
    op = op[order]
    return _places(units.take(order, axis=0), op), op


def _order(op: NDArray[np.uint8]) -> NDArray[np.intp]:
    """Return the rows with each gap in order; a cut right after a cut has nothing to cut."""
    order = np.arange(len(op))
    others = np.flatnonzero(op != Op.STITCH)
    gap = others - np.arange(len(others))
    order[others] = others[np.argsort(gap * len(Op) + _RANK[op[others]], kind="stable")]
    cuts = others[op[order[others]] == Op.CUT]
    return np.delete(order, cuts[nth_in_run(cuts) > 0])


def _places(units: Units, op: NDArray[np.uint8]) -> Units:
    """Give cuts and pauses the place of the row before, in place."""
    still = np.flatnonzero((op == Op.CUT) | (op == Op.PAUSE))
    units[still] = units[still - nth_in_run(still) - 1]
    return units


def _reach(place: Units) -> Units:
    """Return each row's way along either axis, whichever is longer, the first from (0, 0)."""
    reach = np.empty(len(place), dtype=np.int32)
    reach[0] = np.abs(place[0]).max()
    for part in parts_of(len(place) - 1):
        ways = np.abs(np.diff(place[part.start : part.stop + 1], axis=0))
        np.maximum(ways[:, 0], ways[:, 1], out=reach[part.start + 1 : part.stop + 1])
    return reach


def _is_sewn(op: NDArray[np.uint8]) -> NDArray[np.bool_]:
    """Tell the rows that thread is sewn to: a stitch after a stitch, pauses not counting."""
    is_stitch = op == Op.STITCH
    sewn = np.zeros(len(op), dtype=np.bool_)
    sewn[1:] = is_stitch[1:] & is_stitch[:-1]
    pauses = np.flatnonzero(op == Op.PAUSE)
    sewn[pauses + 1] = is_stitch[pauses + 1] & is_stitch[pauses - nth_in_run(pauses) - 1]
    return sewn


def _hops(reach: Units, sewn: NDArray[np.bool_], format_: Format) -> Units:
    hops = np.zeros_like(reach)
    if format_.keeps_jumps or format_.cut_records is not None:  # else it moves as it sews
        loose = np.flatnonzero(~sewn)
        hops[loose] = -(-reach[loose] // format_.longest_step_units)
    return hops


def _stitches_after_a_bare_cut(op: NDArray[np.uint8], hops: Units) -> NDArray[np.intp]:
    """Return the stitches after a cut with no hop between."""
    stitches, cuts = np.flatnonzero(op == Op.STITCH), np.flatnonzero(op == Op.CUT)
    cuts = cuts[cuts < stitches[-1]]
    after = stitches[np.searchsorted(stitches, cuts)]
    hopped = np.cumsum(hops)
    bare: NDArray[np.intp] = after[hopped[after] == hopped[cuts]]
    return bare


def _expand(op: NDArray[np.uint8], place: Units, hops: Units) -> Records:
    """Put every row's hops before it; a jump is nothing but its hops."""
    repeats = hops + (op != Op.JUMP)
    xy, kinds = np.repeat(place, repeats, axis=0), np.repeat(op, repeats)
    far = np.flatnonzero(hops)
    parts = hops[far]
    row = np.repeat(far, parts)
    nth = np.arange(len(row)) - np.repeat(np.cumsum(parts) - parts, parts)
    at = np.repeat((np.cumsum(repeats) - repeats)[far], parts) + nth
    start, share, parts = place[row - 1].astype(np.int64), nth[:, None] + 1, hops[row][:, None]
    start[row == 0] = 0
    way = 2 * (place[row] - start) * share
    xy[at] = start + (way + parts) // (2 * parts)  # half up; the last is exact
    kinds[at] = Op.JUMP
    return Records(xy_units=xy, op=kinds)


def _check_order(op: NDArray[np.uint8], format_: Format) -> None:
    stitches = np.flatnonzero(op == Op.STITCH)
    if not len(stitches):
        raise FormatError(f"there is nothing to sew, so there is no {format_.name} file")
    if np.any(op[: stitches[0]] != Op.JUMP):
        raise ValueError("a cut or a pause comes after a stitch")
    if np.any(op[stitches[-1] :] == Op.PAUSE):
        raise ValueError("a pause stands between two stitches")


def _check_room(place: Units, format_: Format) -> None:
    if max(place.max(), -place.min()) > format_.farthest_units:
        far = np.abs(place).max(axis=1)
        row = int(far.argmax())
        out, most = far[row] / STEPS_PER_MM, format_.farthest_units / STEPS_PER_MM
        raise FormatError(
            f"a {format_.name} file cannot say how far out the needle goes\n"
            f"the point at {_at(place[row])} is {out:.1f} mm from the centre\n"
            f"the limit is {most:.1f} mm along either axis\n"
            "use a smaller field or another format"
        )


def _check_steps(place: Units, reach: Units, sewn: NDArray[np.bool_], format_: Format) -> None:
    too_long = np.flatnonzero(sewn & (reach > format_.longest_step_units))
    if len(too_long):
        row = int(too_long[0])
        length, most = reach[row] / STEPS_PER_MM, format_.longest_step_mm
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


def _check_length(op: NDArray[np.uint8], format_: Format) -> None:
    cuts = int(np.count_nonzero(op == Op.CUT)) * ((format_.cut_records or 1) - 1)
    if format_.most_records is not None and format_.most_records < len(op) + cuts:
        raise FormatError(
            f"a {format_.name} file holds at most {format_.most_records} records, "
            f"not {len(op) + cuts}\nuse smaller hoopings or another format"
        )


def _at(units: Units) -> str:
    x, y = units / STEPS_PER_MM
    return f"x {x:.1f} mm, y {y:.1f} mm of the field"
