"""Fewest fields by an integer programme: which of all sensible positions to take.

Boxes have to lie in fields. Any cover can be pushed, field by field, to the right and down
until each field's left side touches the left side of a box in it and its top the top of one
(the left-bottom normal form of packing and covering). So only those positions need be looked
at; a position whose boxes all lie in another one too is left out. What is left is a set cover,
solved as an integer programme, see `set_cover`. Source: normal patterns, N. Christofides and
C. Whitlock 1977, from memory.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.boxes import Boxes
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.hoopings.places import Cover, Kind, Place

MOST_CELLS = 12_000_000
"""Positions times boxes that are looked at; more would take seconds."""
MOST_POSITIONS = 600
"""That the programme chooses from."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sets:
    """Positions of fields and the boxes that each of them holds.

    Attributes:
        held: Shape (positions, boxes).
        kinds: The kind of each position.
        corners: Its left and top, shape (positions, 2), mm.
    """

    held: NDArray[np.bool_]
    kinds: tuple[Kind, ...]
    corners: NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """What a programme found.

    Attributes:
        cover: Places that hold all boxes, or None where none was found in time.
        bound: No cover of the boxes has fewer.
    """

    cover: Cover | None
    bound: int


def find_sets(boxes: Boxes, kinds: tuple[Kind, ...]) -> Sets | None:
    """Return the positions worth looking at for some boxes, or None if they are too many.

    Args:
        boxes: What has to be held, shape (n, 4), mm; n >= 1.
        kinds: What fields there are, small rings first.
    """
    held: list[NDArray[np.bool_]] = []
    owners: list[Kind] = []
    corners: list[NDArray[np.float64]] = []
    for kind in kinds:
        sides = [find_sides(boxes, kind, axis) for axis in (0, 1)]
        (left, in_x), (top, in_y) = sides
        if len(left) * len(top) * len(boxes) > MOST_CELLS:
            return None
        both = (in_x[None] & in_y[:, None]).reshape(-1, len(boxes))
        some = both.any(axis=1)
        held.append(both[some])
        grid = np.stack(np.meshgrid(left, top), axis=-1).reshape(-1, 2)
        corners.append(grid[some])
        owners += [kind] * int(some.sum())
    every, places = np.concatenate(held), np.concatenate(corners)
    kept = _undominated(every)
    if kept is None:
        return None
    return Sets(
        held=every[kept],
        kinds=tuple(owners[row] for row in kept.tolist()),
        corners=places[kept],
    )


def find_sides(
    boxes: Boxes, kind: Kind, axis: int
) -> tuple[NDArray[np.float64], NDArray[np.bool_]]:
    """Return where fields may begin along an axis, and which boxes lie within each there.

    A beginning is left out if the one before it already reaches every box that it does.

    Args:
        boxes: What has to be held, shape (n, 4), mm.
        kind: Of the fields.
        axis: 0 from left to right, 1 down.

    Returns:
        The beginnings, shape (k,), mm, and for each of them the boxes within, shape (k, n).
    """
    reach = kind.reach[axis] + SAME_POINT_MM
    low, high = boxes[:, axis], boxes[:, axis + 2]
    ends = np.sort(high)
    starts: list[float] = []
    for start in np.unique(low).tolist():
        before = np.searchsorted(ends, starts[-1] + reach, side="right") if starts else -1
        if np.searchsorted(ends, start + reach, side="right") > before:
            starts.append(start)
    begins = np.array(starts)
    inside = (begins[:, None] <= low + SAME_POINT_MM) & (high <= begins[:, None] + reach)
    return begins, inside


def solve(boxes: Boxes, sets: Sets) -> Solved:
    """Return the fewest positions that hold all boxes, and what bounds their number.

    Args:
        boxes: What the sets were found for.
        sets: Positions to choose from.
    """
    from stitchpath.hoopings.set_cover import fewest_sets  # noqa: PLC0415 - brings a solver

    fewest = fewest_sets(sets.held)
    cover = None if fewest.chosen is None else _centred(boxes, sets, fewest.chosen)
    return Solved(cover=cover, bound=fewest.bound)


def _undominated(held: NDArray[np.bool_]) -> NDArray[np.intp] | None:
    """Return the rows that no other row holds all of; of equal rows the first."""
    packed = np.packbits(held, axis=1)
    _, first = np.unique(packed, axis=0, return_index=True)
    first = np.sort(first)
    rows = held[first].astype(np.float32)
    if len(rows) > 8 * MOST_POSITIONS:
        return None
    size = rows.sum(axis=1)
    shared = rows @ rows.T
    inside = (shared >= size[:, None]) & (size[None] > size[:, None])
    kept = first[~inside.any(axis=1)]
    return kept if len(kept) <= MOST_POSITIONS else None


def _centred(boxes: Boxes, sets: Sets, chosen: NDArray[np.intp]) -> Cover:
    """Return chosen positions, each moved to the middle of the boxes that it alone holds first.

    A box belongs to the first position that holds it; a position without a box is left out.
    """
    owner = sets.held[chosen].argmax(axis=0)
    places = []
    for at, position in enumerate(chosen.tolist()):
        own = boxes[owner == at]
        if len(own):
            middle = (own[:, :2].min(axis=0) + own[:, 2:].max(axis=0)) / 2
            x, y = middle.tolist()
            places.append(Place(kind=sets.kinds[position], centre=(x, y)))
    return tuple(places)
