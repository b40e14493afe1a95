"""What a cover has to reach, as boxes: each of them must lie in one field as a whole.

A line can be joined wherever two fields both reach half the overlap past a place on it. So a
cover reaches a line just if each of its *stretches of one overlap* lies in some field: then the
fields' parts of the line, less half the overlap at their ends, leave nothing out. *Pieces* are
lines cut up with half the overlap added at both ends: a cover that holds every piece reaches
everything, so fields that hold all pieces are enough. `bound` asks how many are needed.
"""

from collections import defaultdict
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.boxes import Boxes, bounds_of, stretch_boxes
from stitchpath.geometry.paths import distances_along
from stitchpath.geometry.points import Points, path_length, turns_between
from stitchpath.geometry.tolerance import GRID_MM, SAME_POINT_MM, SHARP_TURN_DEG
from stitchpath.hoopings.places import Kind
from stitchpath.model.line import Line

MOST_PIECES = 3_000
"""Of a stage. More would be finer than anything that reads them needs."""
_SHARES = range(5, 13)
"""Pieces to the smallest field's side, where that are not too many."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Needs:
    """Boxes that have to be reached, all of shape (n, 4), mm.

    Attributes:
        cores: Lines cut up; together they are everything.
        pieces: The same with half the overlap at both ends.
        wholes: What one field has to hold: whole parts, motifs.
        room_mm: By how much fields overlap at a join.
        loose: The lines that are not among the wholes altogether: fields may share them.
    """

    cores: Boxes
    pieces: Boxes
    wholes: Boxes
    room_mm: float
    loose: tuple[Line, ...]

    @property
    def box(self) -> NDArray[np.float64]:
        """x0, y0, x1, y1 of everything, mm."""
        every = np.concatenate([self.cores, self.wholes])
        return np.concatenate([every[:, :2].min(axis=0), every[:, 2:].max(axis=0)])


def find_needs(lines: tuple[Line, ...], kinds: tuple[Kind, ...], *, room_mm: float) -> Needs:
    """Return what has to be reached.

    Args:
        lines: A stage's lines; at least one.
        kinds: What fields there are.
        room_mm: By how much fields overlap at a join.
    """
    wholes, held = _wholes(lines, kinds, room_mm)
    loose = [line for number, line in enumerate(lines) if number not in held]
    lengths = [path_length(line.points) for line in loose]
    piece_mm = max(_piece_mm(kinds, room_mm), sum(lengths) / MOST_PIECES)
    parts: list[tuple[Boxes, Boxes]] = []
    for line in loose:
        cuts = _cuts(line.points, piece_mm, room_mm)
        bounds = np.column_stack([cuts[:-1], cuts[1:]])
        longer = bounds + np.array([-1, 1]) * room_mm / 2
        cores, pieces = np.split(
            stretch_boxes(line.points, np.concatenate([bounds, longer])), 2
        )
        parts.append((cores, pieces))
    none = np.empty((0, 4))
    cores, pieces = (
        np.concatenate([none, *(part[which] for part in parts)]) for which in range(2)
    )
    return Needs(
        cores=cores,
        pieces=pieces,
        wholes=wholes,
        room_mm=room_mm,
        loose=tuple(loose),
    )


def _piece_mm(kinds: tuple[Kind, ...], room_mm: float) -> float:
    """Return a length of which fields reach whole multiples, as nearly as can be.

    A field that reaches s along a line holds pieces of s less the room together.
    """
    sides = np.unique([side - room_mm for kind in kinds for side in kind.reach])
    lengths = [float(sides[0]) / share for share in _SHARES]
    return min(
        lengths, key=lambda length: round(float(((sides + GRID_MM) % length).sum()) / GRID_MM)
    )


def _cuts(points: Points, piece_mm: float, room_mm: float) -> NDArray[np.float64]:
    """Return where a line is cut up: from its start on, and anew from every corner.

    A field flush with a start reaches half the room less than a whole number of pieces, so the
    first piece is that much longer.
    """
    along = distances_along(points)
    is_corner = turns_between(np.diff(points, axis=0)) > np.radians(SHARP_TURN_DEG)
    ends = along[np.concatenate([[True], is_corner, [True]])]
    first = room_mm / 2 + piece_mm
    cuts = [
        np.append(start, np.arange(start + first, end - SAME_POINT_MM, piece_mm))
        for start, end in pairwise(ends.tolist())
    ]
    return np.concatenate([*cuts, along[-1:]])


def fits_one(box: NDArray[np.float64], kinds: tuple[Kind, ...]) -> bool:
    """Whether a field of some kind holds a box."""
    width, height = (box[2:] - box[:2] - SAME_POINT_MM).tolist()
    return any(width <= kind.reach[0] and height <= kind.reach[1] for kind in kinds)


def _wholes(
    lines: tuple[Line, ...], kinds: tuple[Kind, ...], room_mm: float
) -> tuple[Boxes, set[int]]:
    """Return the boxes of what must stay whole, and which lines are whole altogether."""
    motifs: dict[int, list[int]] = defaultdict(list)
    boxes: list[Boxes] = []
    held: set[int] = set()
    for number, line in enumerate(lines):
        if line.motif is not None:
            motifs[line.motif].append(number)
        if line.whole:
            boxes.append(_whole_boxes(line, room_mm))
    for members in motifs.values():
        bounds = bounds_of([lines[number].points for number in members])
        hull = np.concatenate([bounds[:, :2].min(axis=0), bounds[:, 2:].max(axis=0)])
        if fits_one(hull, kinds):
            boxes.append(hull[None])
            held |= set(members)
            continue
        kept = [row for row in range(len(members)) if fits_one(bounds[row], kinds)]
        boxes.append(bounds[kept])
        held |= {members[row] for row in kept}
    return np.concatenate([np.empty((0, 4)), *boxes]), held


def _whole_boxes(line: Line, room_mm: float) -> Boxes:
    """Return the boxes of a line's whole parts, with what a join beside them takes."""
    along = distances_along(line.points)
    ends = along[np.array(line.whole)]
    return stretch_boxes(line.points, ends + np.array([-1, 1]) * room_mm / 2)
