"""Stitches of one format made ready for another, and what that one cannot hold."""

import numpy as np
from numpy.typing import NDArray

from stitchpath.catalog.formats import Format
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.machine.rows import FileStitches
from stitchpath.model.stitches import Op, Stitches
from stitchpath.units import number_of


def fit_to_format(stitches: Stitches, format_: Format) -> Stitches:
    """Return stitches that a format holds, no needle point moved.

    A stitch longer than the format holds gets a jump before its needle point: the frame moves
    in hops with the thread uncut, and the needle goes down where it would have.
    """
    rows = stitches.stitch_rows
    far = rows[_is_long(stitches, format_)][:, 1]
    at = np.insert(np.arange(len(stitches)), far, far)
    op = stitches.op[at]
    op[far + np.arange(len(far))] = Op.JUMP
    return Stitches(xy=stitches.xy[at], op=op, tie=stitches.tie[at])


def losses(read: FileStitches, stitches: Stitches, format_: Format) -> tuple[str, ...]:
    """Return what of a file another format cannot hold, a sentence each.

    Args:
        read: The file.
        stitches: What it sews, by `sewn_part`.
        format_: The other format.
    """
    every = [
        *_long_stitches(stitches, format_),
        *_colours(read),
        *_pauses(read, format_),
        *_jumps(fit_to_format(stitches, format_), format_),
    ]
    return tuple(text for count, text in every if count)


def _long_stitches(stitches: Stitches, format_: Format) -> list[tuple[int, str]]:
    most = format_.longest_step_mm
    count = int(np.count_nonzero(_is_long(stitches, format_)))
    long = number_of(count, "stitch", "stitches")
    return [(count, f"longer than {most:g} mm, so written as jumps, thread uncut: {long}")]


def _is_long(stitches: Stitches, format_: Format) -> NDArray[np.bool_]:
    """Tell the stitches, as in `stitch_rows`, that are longer along an axis than is held."""
    rows = stitches.stitch_rows
    ways = np.abs(stitches.xy[rows[:, 1]] - stitches.xy[rows[:, 0]])
    return np.asarray(ways.max(axis=1, initial=0.0) > format_.longest_step_mm + GRID_MM / 2)


def _colours(read: FileStitches) -> list[tuple[int, str]]:
    blocks = read.colour_blocks
    return [
        (
            blocks - 1,
            f"colours are not kept: {blocks} colour blocks are written in one colour",
        )
    ]


def _pauses(read: FileStitches, format_: Format) -> list[tuple[int, str]]:
    stops = len(read.stops)
    if format_.pause == "colour":
        return [(stops, f"written as changes of colour: {number_of(stops, 'stop', 'stops')}")]
    return []


def _jumps(stitches: Stitches, format_: Format) -> list[tuple[int, str]]:
    uncut = _uncut_jumps_mm(stitches)
    count = len(uncut)
    if not format_.keeps_jumps and format_.cut_records is None:
        return [
            (count, f"sewn as long stitches: {number_of(count, 'uncut jump', 'uncut jumps')}")
        ]
    if format_.cut_records is None:
        return []
    hops = np.ceil(np.round(uncut / format_.longest_step_mm, 6))
    cut = int(np.count_nonzero(hops >= format_.cut_records))
    return [
        (
            cut,
            f"taken for thread cuts by machines: {number_of(cut, 'uncut jump', 'uncut jumps')}",
        )
    ]


def _uncut_jumps_mm(stitches: Stitches) -> NDArray[np.float64]:
    """Return how far the needle jumps along an axis, for each jump with the thread uncut."""
    rows = np.flatnonzero(stitches.op == Op.STITCH)
    cuts, jumps = (np.cumsum(stitches.op == op)[rows] for op in (Op.CUT, Op.JUMP))
    uncut = (np.diff(cuts) == 0) & (np.diff(jumps) > 0)
    ways = np.abs(np.diff(stitches.xy[rows], axis=0)).max(axis=1, initial=0.0)
    return np.asarray(ways[uncut])
