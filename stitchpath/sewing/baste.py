"""Basting before a hooping's own stitches: crosses at placement marks, a box round the work.

It is temporary: long stitches without ties, so that the thread can be drawn out. All of it
comes first, and a pause after it parts it from what stays. Basting takes 4 to 5 mm, 5 or 6
stitches to the inch (see docs/sources.md); a box first keeps the layers from creeping (common
practice, no source).
"""

from collections.abc import Sequence
from itertools import pairwise
from math import ceil
from typing import Final, TypeAlias

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import ROUNDING_MM, SAME_POINT_MM
from stitchpath.model.hooping import Hooping, Mark
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Basting
from stitchpath.model.stitches import Op, Stitches
from stitchpath.sewing.limits import StitchLimits

BASTING_MM: Final = 5.0
"""A basting stitch, where the machine's limits allow it."""
ARM_MM: Final = 4.2
"""How far a cross reaches from its mark: not out of the field, for a mark lies 5 mm inside it,
and so little that the hop from arm to arm stays below 6 mm, as uncut hops do."""
BOX_ROOM_MM: Final = 4.0
"""From the outermost needle points to the box, where field and piece have so much."""

Run: TypeAlias = Sequence[Points]
"""Polylines basted one after another; between them the needle hops."""


def baste(
    stitches: Stitches,
    hooping: Hooping,
    machine: Machine,
    *,
    marks: Sequence[Mark] = (),
    box_on: tuple[float, float] | None = None,
) -> tuple[Stitches, Basting, int]:
    """Return stitches with basting before them, what is basted, and in how many runs.

    Args:
        stitches: What is sewn in the hooping, in the piece's frame; they begin with a move.
        hooping: Where the hoop lies, turned by quarter turns.
        machine: Its longest and shortest stitch, and whether it cuts thread.
        marks: Baste a cross at each of these.
        box_on: Width and length of the piece, mm, to baste a box as well; None for none.
    """
    runs = [_cross(mark, hooping) for mark in marks]
    if box_on is not None:
        runs.append([_box(stitches.needle_points, hooping, box_on)])
    if not runs:
        return stitches, Basting(), 0
    limits = StitchLimits.with_rounding_room(machine.shortest_stitch, machine.longest_stitch)
    xy: list[Points] = []
    op: list[int] = []
    for run in runs:
        for path in run:
            points = _needle_points(path, limits)
            xy += [points[:1], points]
            op += [Op.JUMP, *[Op.STITCH] * len(points)]
        if machine.cuts_thread:
            xy.append(xy[-1][-1:])
            op.append(Op.CUT)
    xy.append(xy[-1][-1:])
    op.append(Op.PAUSE)
    basted = Stitches(
        xy=np.concatenate([*xy, stitches.xy]),
        op=np.concatenate([np.array(op, dtype=np.uint8), stitches.op]),
        tie=np.concatenate([np.zeros(len(op), dtype=bool), stitches.tie]),
    )
    names = tuple(mark.name for mark in marks)
    told = Basting(marks=names, box=box_on is not None, stitches=op.count(Op.STITCH))
    return basted, told, len(runs)


def _cross(mark: Mark, hooping: Hooping) -> Run:
    """Return the two arms of a cross, as long as the field allows."""
    room = np.array(hooping.field) / 2 - np.abs(mark.field) - ROUNDING_MM
    arm = float(np.clip(room.min(), SAME_POINT_MM, ARM_MM))
    middle = np.array(mark.piece)
    return [np.array([middle - way, middle + way]) for way in arm * np.eye(2)]


def _box(points: Points, hooping: Hooping, piece: tuple[float, float]) -> Points:
    """Return a closed rectangle round needle points, inside the field and on the piece."""
    corners = hooping.corners
    low, high = points.min(axis=0), points.max(axis=0)
    left, top = np.max(
        [
            low - BOX_ROOM_MM,
            corners.min(axis=0) + ROUNDING_MM,
            np.minimum(BOX_ROOM_MM / 2, low),
        ],
        axis=0,
    )
    edge = np.array(piece) - BOX_ROOM_MM / 2
    right, bottom = np.min(
        [high + BOX_ROOM_MM, corners.max(axis=0) - ROUNDING_MM, np.maximum(edge, high)], axis=0
    )
    return np.array([[left, top], [right, top], [right, bottom], [left, bottom], [left, top]])


def _needle_points(path: Points, limits: StitchLimits) -> Points:
    """Return even stitches along each side of a path, its corners among them."""
    parts = [path[:1]]
    for start, end in pairwise(path):
        length = float(np.hypot(*(end - start)))
        most = int(length / limits.shortest_mm)
        count = max(ceil(length / limits.longest_mm), min(ceil(length / BASTING_MM), most), 1)
        share = np.arange(1, count + 1)[:, None] / count
        parts.append(start + share * (end - start))
    return np.concatenate(parts)
