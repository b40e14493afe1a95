"""How many hoopings any way of placing the hoops takes at the least.

A *spot* is a stretch of one overlap on a line: some field has to hold it (see `needs`). If no
field, wherever it lies, holds more than m of n spots, then n / m fields are needed at least,
whatever the spots are. Spots a little farther apart than a field reaches, or than half or a
third of that, and spots spread evenly along lines, give good figures. Spots of different
weights bound better, and take longer; `weights` has them. Geometry.
"""

from dataclasses import dataclass
from math import ceil

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.boxes import Boxes, stretch_boxes
from stitchpath.geometry.paths import Paths, distances_along
from stitchpath.geometry.points import Points, path_length
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.hoopings.needs import Needs
from stitchpath.hoopings.places import Kind
from stitchpath.model.line import Line, LineKind

MOST_SPOTS = 1_500
"""In a lattice."""
MOST_ALONG = 8_000
"""Along lines; where there were more, lines are passed over."""
MOST_LOOKED_AT = 6_000_000
"""Spots times places of a field's left side; more would take longer than placing the hoops."""
_SHARES = (1, 2, 3)
"""Spots to a field's smaller side."""
_FINE_SHARES = range(3, 13)
"""The same, where they are not too many, for a step that suits all sides."""
_SPARE = 1.001
"""Spots lie farther apart than a share of a field by so much."""
_AT_ONCE = 64
"""Segments of a line that are looked at together."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Spots:
    """Stretches that some field has to hold each, as boxes of shape (n, 4), mm.

    Attributes:
        lattices: Sets nearest to the places of a square grid, from coarse to fine.
        along: Spread evenly along lines, coarse and fine; where there is quilting, along that
            alone, which is about as close everywhere.
    """

    lattices: tuple[Boxes, ...]
    along: tuple[Boxes, ...]


def find_spots(lines: tuple[Line, ...], needs: Needs, kinds: tuple[Kind, ...]) -> Spots:
    """Return spots of lines that fields may share; what must stay whole is among them as it is.

    Args:
        lines: Those of a stage that fields may share; may be none.
        needs: What has to be reached.
        kinds: What fields there are.
    """
    room_mm = needs.room_mm
    loose = _points(lines)
    side = _smaller_side(kinds, room_mm)
    steps = [_SPARE * side / share for share in _SHARES]
    parts = _short_parts(loose)
    lattices = [_lattice(parts, needs.box, step, room_mm) for step in steps] if loose else []
    quilting = tuple(line for line in lines if line.kind is LineKind.QUILTING) or lines
    close_mm = dict.fromkeys((steps[-1], _fine_step(_points(quilting), kinds, room_mm)))
    along = [
        spots_along(thinned(quilting, step_mm, most=MOST_ALONG), needs, step_mm)
        for step_mm in close_mm
    ]
    return Spots(
        lattices=tuple(np.concatenate([spots, needs.wholes]) for spots in lattices),
        along=tuple(along),
    )


def thinned(lines: tuple[Line, ...], step_mm: float, *, most: int) -> tuple[Line, ...]:
    """Return every line, or every second, third, ... where spots were more than `most`."""
    loose = _points(lines)
    count = sum(map(path_length, loose)) / step_mm + len(loose)
    return lines[:: max(1, ceil(count / most))]


def spots_along(lines: tuple[Line, ...], needs: Needs, step_mm: float) -> Boxes:
    """Return spots on lines that fields may share, at least a step apart, and all wholes."""
    along = [_every(points, step_mm, needs.room_mm) for points in _points(lines)]
    return np.concatenate([needs.wholes, *along])


def step_of(share: int, needs: Needs, kinds: tuple[Kind, ...]) -> float:
    """Return a step of which so many, and no more, come to a field's smaller side, mm."""
    return _SPARE * _smaller_side(kinds, needs.room_mm) / share


def _points(lines: tuple[Line, ...]) -> list[Points]:
    return [line.points for line in lines]


def _smaller_side(kinds: tuple[Kind, ...], room_mm: float) -> float:
    return min(min(kind.reach) for kind in kinds) - room_mm


def _fine_step(loose: list[Points], kinds: tuple[Kind, ...], room_mm: float) -> float:
    """Return the step of which all sides of fields hold the least more than their share."""
    sides = np.unique([side - room_mm for kind in kinds for side in kind.reach])
    steps = [_SPARE * float(sides[0]) / share for share in _FINE_SHARES]
    least = sum(map(path_length, loose)) / MOST_SPOTS

    def too_many(step: float) -> float:
        return float(((np.floor(sides / step) + 1) * step / sides).prod())

    return min((step for step in steps if least <= step), key=too_many, default=steps[0])


def counting_bound(spots: Spots, kinds: tuple[Kind, ...]) -> int:
    """Return a number of fields below which no cover of some spots can be; at least 1.

    Cost: O(n k) for n spots at k places from left to right, for each set of spots.
    """
    sets = (*spots.lattices, *spots.along)
    counted = [
        each
        for each in sets
        if len(each) and len(each) * len(np.unique(each[:, 0])) <= MOST_LOOKED_AT
    ]
    return max((ceil(len(each) / _most_held(each, kinds)) for each in counted), default=1)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Parts:
    """Lines in short parts: of each its line, how far along that it begins, and its shape."""

    lines: list[Points]
    line: NDArray[np.intp]
    begins: NDArray[np.float64]
    shapes: NDArray[np.object_]


def _lattice(parts: _Parts, box: NDArray[np.float64], step: float, room: float) -> Boxes:
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
    nearest = shapely.STRtree(parts.shapes).nearest(places)
    line = parts.line[nearest]
    along = parts.begins[nearest] + shapely.line_locate_point(parts.shapes[nearest], places)
    ends = along[:, None] + np.array([-1, 1]) * room / 2
    spots = [
        stretch_boxes(parts.lines[number], ends[line == number])
        for number in np.unique(line).tolist()
    ]
    return np.unique(np.concatenate(spots), axis=0)


def _short_parts(lines: list[Points]) -> _Parts:
    """Return lines in parts.

    To look for the nearest place on a line takes as long as the line has vertices.
    """
    line: list[int] = []
    begins: list[float] = []
    parts: list[Points] = []
    for number, points in enumerate(lines):
        along = distances_along(points)
        for start in range(0, len(points) - 1, _AT_ONCE):
            line.append(number)
            begins.append(float(along[start]))
            parts.append(points[start : start + _AT_ONCE + 1])
    shapes = Paths.of(parts).shapes() if parts else np.empty(0, dtype=np.object_)
    return _Parts(lines=lines, line=np.array(line), begins=np.array(begins), shapes=shapes)


def _every(points: Points, step: float, room: float) -> Boxes:
    """Return stretches along a line, at least a step apart, its ends included."""
    length = path_length(points)
    along = np.linspace(0.0, length, max(1, int(length / step)) + 1)
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
