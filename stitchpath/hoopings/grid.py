"""Covers in even grids, and what they share with other covers."""

from itertools import product
from math import ceil

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.boxes import Boxes
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.hoopings.needs import Needs
from stitchpath.hoopings.places import Cover, Kind, Place, boxes_of

MOST_EXTRA_CELLS = 3
"""How many more columns or rows are tried, so that no field's border cuts a whole part."""


def evenly(
    start: float, end: float, *, reach: float, room: float, extra: int = 0
) -> NDArray[np.float64]:
    """Return the centres of the fewest fields in a row that reach a stretch, evenly spaced.

    What the fields reach more than they have to is shared out: every two overlap by more, and
    the outer ones reach past the stretch by half of that.

    Args:
        start: Where the stretch begins, mm.
        end: Where it ends.
        reach: What a field reaches, wider than the room.
        room: By how much neighbours overlap at the least.
        extra: More fields than needed.

    Example:
        >>> evenly(0, 600, reach=210, room=6).tolist()
        [100.0, 300.0, 500.0]
    """
    extent = end - start
    count = max(1, ceil((extent - room - SAME_POINT_MM) / (reach - room))) + extra
    pitch = min(extent / count, reach - room)
    steps = np.arange(count, dtype=np.float64) - (count - 1) / 2
    return np.asarray((start + end) / 2 + steps * pitch)


def cells_over(
    box: NDArray[np.float64], kind: Kind, *, room_mm: float, extra: tuple[int, int] = (0, 0)
) -> Cover:
    """Return the coarsest even grid of one kind of field over a box, row by row.

    Args:
        box: x0, y0, x1, y1, mm.
        kind: Of the grid.
        room_mm: By how much neighbours overlap at the least.
        extra: More columns and rows than needed.
    """
    columns, rows = (
        evenly(low, high, reach=reach, room=room_mm, extra=more)
        for low, high, reach, more in zip(
            box[:2].tolist(), box[2:].tolist(), kind.reach, extra, strict=True
        )
    )
    return tuple(
        Place(kind=kind, centre=(x, y)) for y in rows.tolist() for x in columns.tolist()
    )


def even_grid(needs: Needs, kind: Kind, kinds: tuple[Kind, ...], *, room_mm: float) -> Cover:
    """Return the coarsest even grid of one kind of field that holds what must stay whole.

    Places that nothing needs are left out. Where no grid of a few more fields will do, each
    part that the coarsest does not hold gets a place of its own.

    Args:
        needs: What has to be reached; some kind holds each whole part.
        kind: Of the grid.
        kinds: What fields there are, small rings first.
        room_mm: By how much neighbours overlap at the least.
    """
    more = range(MOST_EXTRA_CELLS + 1)
    for extra in sorted(product(more, more), key=sum):
        cover = cells_over(needs.box, kind, room_mm=room_mm, extra=extra)
        if holds(cover, needs.wholes):
            return _needed(cover, needs)
    coarsest = cells_over(needs.box, kind, room_mm=room_mm)
    left_over = [box for box in needs.wholes if not holds(coarsest, box[None])]
    return (*coarsest, *(_own_place(box, kinds) for box in left_over))


def _own_place(box: NDArray[np.float64], kinds: tuple[Kind, ...]) -> Place:
    """Return the smallest field that holds a box, its centre in the box's middle."""
    x, y = ((box[:2] + box[2:]) / 2).tolist()
    places = [Place(kind=kind, centre=(x, y)) for kind in kinds]
    return next(place for place in places if holds((place,), box[None]))


def holds(cover: Cover, boxes: Boxes) -> bool:
    """Whether each box lies within some place."""
    room = np.array([-1, -1, 1, 1]) * SAME_POINT_MM
    signs = np.array([1, 1, -1, -1])
    reach = boxes_of(cover) + room
    return all(np.any(np.all((box - reach) * signs >= 0, axis=1)) for box in boxes)


def _needed(cover: Cover, needs: Needs) -> Cover:
    """Leave out the places of a grid that no core is in the cell of, if wholes allow it."""
    columns, rows = (np.unique([place.centre[axis] for place in cover]) for axis in (0, 1))
    used = np.zeros((len(rows), len(columns)), dtype=np.bool_)
    ends = [
        np.searchsorted((at[1:] + at[:-1]) / 2, needs.cores[:, [axis, axis + 2]])
        for axis, at in enumerate((columns, rows))
    ]
    for (left, right), (top, bottom) in zip(ends[0].tolist(), ends[1].tolist(), strict=True):
        used[top : bottom + 1, left : right + 1] = True
    kept = tuple(place for place, is_used in zip(cover, used.ravel(), strict=True) if is_used)
    return kept if kept and holds(kept, needs.wholes) else cover
