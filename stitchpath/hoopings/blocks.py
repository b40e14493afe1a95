"""Covers in two blocks: a stage cut in two by a line, each side covered in rows or columns.

Rows of one kind of field often leave a strip over that fields turned round would fill. So every
place is tried where a line of fields of any kinds would end, from left to right and down, and
each side is covered as if it were alone.
"""

from dataclasses import replace
from itertools import product
from math import floor

import numpy as np

from stitchpath.geometry.boxes import Boxes
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.hoopings.needs import Needs
from stitchpath.hoopings.places import Cover, Kind
from stitchpath.hoopings.rows import row_cover

MOST_CUTS = 24
"""That are tried along one axis, evenly chosen where there were more."""


def block_cover(needs: Needs, kinds: tuple[Kind, ...], *, most: int) -> Cover | None:
    """Return two blocks of at most so many fields, as few as are found; None without any.

    Args:
        needs: What has to be reached.
        kinds: What fields there are.
        most: Covers of more places are of no use.

    Cost: that of `row_cover`, eight times for each place of the cut.
    """
    best: Cover | None = None
    for axis in range(2):
        for end in _ends(needs, kinds, axis):
            before, after = _parted(needs, axis, end)
            first = _in_rows(before, kinds, most=most - 1)
            if first is None:
                continue
            second = _in_rows(after, kinds, most=most - len(first))
            if second is not None:
                best, most = (*first, *second), len(first) + len(second) - 1
    return best


def _ends(needs: Needs, kinds: tuple[Kind, ...], axis: int) -> list[float]:
    """Return where lines of fields that begin with the stage would end, short of its end."""
    low, high = needs.box[[axis, axis + 2]].tolist()
    steps = sorted({round(kind.reach[axis] - needs.room_mm, 6) for kind in kinds})
    counts = [range(floor((high - low) / step) + 1) for step in steps]
    sums = (
        sum(count * step for count, step in zip(chosen, steps, strict=True))
        for chosen in product(*counts)
    )
    room = needs.room_mm
    ends = sorted(
        {round(low + each + room, 6) for each in sums if 0 < each < high - low - room}
    )
    picked = np.unique(np.linspace(0, len(ends) - 1, MOST_CUTS).round().astype(np.intp))
    return [ends[at] for at in picked.tolist()] if ends else []


def _parted(needs: Needs, axis: int, end: float) -> tuple[Needs, Needs]:
    """Return what lies before an end, and the rest; pieces across it are joined there."""
    low, high = axis, axis + 2
    pieces, wholes = needs.pieces, needs.wholes
    is_after = pieces[:, high] > end + SAME_POINT_MM
    before, after = pieces[~is_after | (pieces[:, low] < end - needs.room_mm)], pieces[is_after]
    before[:, high] = np.minimum(before[:, high], end)
    after[:, low] = np.maximum(after[:, low], end - needs.room_mm)
    is_held = wholes[:, high] <= end + SAME_POINT_MM
    return _only(needs, before, wholes[is_held]), _only(needs, after, wholes[~is_held])


def _only(needs: Needs, pieces: Boxes, wholes: Boxes) -> Needs:
    return replace(needs, cores=pieces, pieces=pieces, wholes=wholes)


def _in_rows(needs: Needs, kinds: tuple[Kind, ...], *, most: int) -> Cover | None:
    """Return rows or columns over a part, whichever are fewer."""
    best: Cover | None = None
    if most < 1 or not len(needs.pieces) + len(needs.wholes):
        return None
    for down in (True, False):
        found = row_cover(needs, kinds, room_mm=needs.room_mm, most=most, down=down)
        if found is not None:
            best, most = found, len(found) - 1
    return best
