"""How many hoopings any way of placing the hoops takes at the least.

A *spot* is a stretch of one overlap on a line: some field has to hold it (see `needs`). If no
field, wherever it lies, holds more than m of n spots, then n / m fields are needed at least,
whatever the spots are. Spots a little farther apart than a field reaches, or than half or a
third of that, and spots spread evenly along all lines, give good figures. A programme that
holds all spots bounds better, and takes longer; `programme` has it. Geometry.
"""

from dataclasses import dataclass
from math import ceil

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.boxes import Boxes, stretch_boxes
from stitchpath.geometry.points import Points, path_length
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.hoopings.needs import Needs
from stitchpath.hoopings.places import Kind

MOST_SPOTS = 1_500
"""In one set."""
_SHARES = (1, 2, 3)
"""Spots to a field's smaller side."""
_SPARE = 1.001
"""Spots lie farther apart than a share of a field by so much."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Spots:
    """Stretches that some field has to hold each, as boxes of shape (n, 4), mm.

    Attributes:
        lattices: Sets nearest to the places of a square grid, from coarse to fine.
        along: Spread evenly along all lines.
    """

    lattices: tuple[Boxes, ...]
    along: Boxes


def find_spots(needs: Needs, kinds: tuple[Kind, ...], *, room_mm: float) -> Spots:
    """Return spots of lines that may be shared; what must stay whole is among them as it is.

    Args:
        needs: What has to be reached.
        kinds: What fields there are.
        room_mm: By how much fields overlap at a join.
    """
    loose = [line.points for line in needs.loose]
    side = max(min(kind.reach) for kind in kinds) - room_mm
    steps = [_SPARE * side / share for share in _SHARES]
    lattices = [_lattice(loose, needs.box, step, room_mm) for step in steps] if loose else []
    step = max(side / _SHARES[-1], sum(map(path_length, loose)) / MOST_SPOTS)
    along = [_every(points, step, room_mm) for points in loose]
    return Spots(
        lattices=tuple(np.concatenate([spots, needs.wholes]) for spots in lattices),
        along=np.concatenate([needs.wholes, *along]),
    )


def counting_bound(spots: Spots, kinds: tuple[Kind, ...]) -> int:
    """Return a number of fields below which no cover of some spots can be; at least 1.

    Cost: O(n^2) for n spots, at most `MOST_SPOTS`, for each set of spots.
    """
    sets = [*spots.lattices, spots.along]
    counted = [each for each in sets if 0 < len(each) <= MOST_SPOTS]
    return max((ceil(len(each) / _most_held(each, kinds)) for each in counted), default=1)


def _lattice(lines: list[Points], box: NDArray[np.float64], step: float, room: float) -> Boxes:
    """Return the stretches nearest to the places of a square grid that fills a box.

    The outer places lie half the room inside, so that a stretch at a line's end is a whole one.
    """
    columns, rows = (
        np.linspace(low, high, int(max(0.0, high - low) / step) + 1)
        for low, high in zip(
            (box[:2] + room / 2).tolist(), (box[2:] - room / 2).tolist(), strict=True
        )
    )
    if len(columns) * len(rows) > MOST_SPOTS:
        return np.empty((0, 4))
    places = shapely.points(np.stack(np.meshgrid(columns, rows), axis=-1).reshape(-1, 2))
    shapes = np.array([shapely.LineString(points) for points in lines])
    nearest = shapely.STRtree(shapes).nearest(places)
    along = shapely.line_locate_point(shapes[nearest], places)
    spots = [
        stretch_boxes(lines[line], along[nearest == line, None] + np.array([-1, 1]) * room / 2)
        for line in np.unique(nearest).tolist()
    ]
    return np.unique(np.concatenate(spots), axis=0)


def _every(points: Points, step: float, room: float) -> Boxes:
    """Return stretches along a line, one in the middle of each step, its ends included."""
    length = path_length(points)
    along = np.linspace(0.0, length, max(1, round(length / step)) + 1)
    return stretch_boxes(points, along[:, None] + np.array([-1, 1]) * room / 2)


def _most_held(spots: Boxes, kinds: tuple[Kind, ...]) -> int:
    """Return how many spots a field can hold at the most, wherever it lies.

    For each place of its left side the spots inside are sorted by their tops and bottoms; those
    within its height are then counted for every place of its top.
    """
    spots = spots[np.argsort(spots[:, 1], kind="stable")]
    left, top, right, bottom = spots.T
    most = 1
    for kind in kinds:
        width, height = (side + SAME_POINT_MM for side in kind.reach)
        for start in np.unique(left).tolist():
            inside = (start <= left) & (right <= start + width)
            tops, ends = top[inside], np.sort(bottom[inside])
            held = np.searchsorted(ends, tops + height, side="right")
            held -= np.searchsorted(tops, tops, side="left")
            most = max(most, int(held.max(initial=0)))
    return most
