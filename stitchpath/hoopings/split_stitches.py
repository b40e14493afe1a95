"""Divides stitches that are there already over hoopings of a field; no needle point moves.

Runs go whole to a hooping that reaches them; a longer one is divided between needle points.
What is sewn before and after such a place overlaps, so that both ends are sewn over.
"""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import GRID_MM, SAME_POINT_MM
from stitchpath.hoopings.grid import cells_over
from stitchpath.hoopings.marks import place_marks
from stitchpath.hoopings.places import Cover, Kind, Place
from stitchpath.model.hooping import Hooping
from stitchpath.model.piece import Piece
from stitchpath.model.stitches import Op, Stitches

OVERLAP_MM: Final = 12.7
"""Sewn by both sides of a divided run: half an inch locks a straight stitch's end. Source: US
Army TM 10-1670-296-20&P, work package 0010 00 (sew over each end by 1/2 in)."""

MARGIN_MM: Final = 20.0
"""Of the piece around the stitches, so that placement marks have room beside them."""
MOST_CELLS: Final = 200
"""Hoopings that are thought of; more would be a slip in the field."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Part:
    """Rows of the stitches that one cell sews in one go.

    Attributes:
        first: The row of its first needle point.
        last: The row of its last one.
    """

    first: int
    last: int


def lay_on_piece(stitches: Stitches) -> tuple[Stitches, Piece]:
    """Return stitches moved onto a rectangular piece just larger than they are.

    They are moved by whole tenths of a mm.
    """
    points = stitches.needle_points
    low, high = (np.rint(edge(points, axis=0) / GRID_MM) for edge in (np.min, np.max))
    room = round(MARGIN_MM / GRID_MM)
    width, length = ((high - low + 2 * room) * GRID_MM).tolist()
    outline = np.array([[0, 0], [width, 0], [width, length], [0, length], [0, 0]])
    moved = replace(stitches, xy=stitches.xy + (room - low) * GRID_MM)
    return moved, Piece(name="design", width=width, length=length, outline=outline)


def split_stitches(
    stitches: Stitches, piece: Piece, field: tuple[float, float]
) -> tuple[tuple[Hooping, Stitches], ...] | None:
    """Return hoopings in the order in which the stitches first need them, each with its own.

    The field lies upright or turned, whichever needs fewer hoopings. Centres are in whole
    tenths of a mm, so that needle points in whole tenths stay so.

    Args:
        stitches: In the piece's frame, mm.
        piece: What lies under the needle; all needle points are on it.
        field: Width and height of what the needle can reach, wider and higher than the overlap.

    Returns:
        None where a stitch is longer than two neighbouring fields overlap, so that neither
        reaches both its ends, or where there would be more than `MOST_CELLS`.
    """
    points = stitches.needle_points
    box = np.concatenate([points.min(axis=0), points.max(axis=0)])
    found = []
    for turn_deg in (0.0, 90.0):
        # centres are rounded afterwards, by up to half a step of the grid
        kind = Kind(field=field, turn_deg=turn_deg, ring=field, clear_mm=GRID_MM / 2)
        cells = cells_over(box, kind, room_mm=OVERLAP_MM)
        parts = _divide(stitches, cells) if len(cells) <= MOST_CELLS else None
        if parts is not None:
            found.append((len(parts), turn_deg, cells, parts))
    if not found:
        return None
    _, _, cells, parts = min(found, key=lambda one: one[:2])
    return tuple(
        (_hooping(number, cells[cell], piece), _sewn_in(stitches, of_cell))
        for number, (cell, of_cell) in enumerate(parts.items(), 1)
    )


def _divide(stitches: Stitches, cover: Cover) -> dict[int, list[_Part]] | None:
    cells: dict[int, list[_Part]] = {}
    for rows in _runs(stitches):
        spans = _spans(stitches.xy[rows], _Reach.of(cover))
        if spans is None:
            return None
        for cell, first, last in spans:
            part = _Part(first=int(rows[first]), last=int(rows[last]))
            cells.setdefault(cell, []).append(part)
    return cells


def _runs(stitches: Stitches) -> list[NDArray[np.intp]]:
    """Return the rows of each run's needle points."""
    rows = np.flatnonzero(stitches.op == Op.STITCH)
    cuts = np.cumsum(stitches.op == Op.CUT)[rows]
    return np.split(rows, np.flatnonzero(np.diff(cuts)) + 1)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Reach:
    """The centres of all cells, shape (n, 2), and how far each reaches along x and y, mm."""

    centres: Points
    half: Points

    @classmethod
    def of(cls, cover: Cover) -> "_Reach":
        """Return the reach of a grid's cells once their centres are rounded."""
        return cls(
            centres=np.array([place.centre for place in cover]),
            half=np.array(cover[0].kind.reach) / 2 + SAME_POINT_MM,
        )

    def furthest(self, points: Points) -> tuple[int, int]:
        """Return the cell that reaches the most points from the first on, and how many."""
        near = (np.abs(points[0] - self.centres) <= self.half).all(axis=1)
        counts = [(self.count(points, cell), -cell) for cell in np.flatnonzero(near).tolist()]
        count, cell = max(counts, default=(0, 0))
        return -cell, count

    def count(self, points: Points, cell: int) -> int:
        """Return how many points a cell reaches from the first on."""
        inside = (np.abs(points - self.centres[cell]) <= self.half).all(axis=1)
        return len(points) if inside.all() else int(inside.argmin())


def _spans(points: Points, reach: _Reach) -> list[tuple[int, int, int]] | None:
    """Return cell, first and last needle point of each part of a run, or None."""
    way = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    spans: list[tuple[int, int, int]] = []
    at = 0
    while True:
        cell, count = reach.furthest(points[at:])
        if count < min(2, len(points) - at):
            return None
        first = at
        if spans:  # go back over what was sewn
            back = int(np.searchsorted(way, way[at] - OVERLAP_MM, side="left"))
            first -= reach.count(points[back:at][::-1], cell) if back < at else 0
        spans.append((cell, first, at + count - 1))
        if at + count == len(points):
            return spans
        at += count - 1


def _hooping(number: int, place: Place, piece: Piece) -> Hooping:
    x, y = (round(axis / GRID_MM) * GRID_MM for axis in place.centre)
    kind = place.kind
    bare = Hooping(number=number, field=kind.field, centre=(x, y), turn_deg=kind.turn_deg)
    return replace(bare, marks=place_marks(bare, piece))


def _sewn_in(stitches: Stitches, parts: list[_Part]) -> Stitches:
    """Return what a hooping sews: parts with a cut between, a pause where one was between."""
    xy: list[Points] = []
    op: list[NDArray[np.uint8]] = []
    pauses = np.cumsum(stitches.op == Op.PAUSE)
    before: _Part | None = None
    for part in parts:
        start = stitches.xy[part.first]
        if before is not None:
            end = stitches.xy[before.last]
            paused = pauses[part.first] > pauses[before.last]
            between = [Op.CUT, Op.PAUSE] if paused else [Op.CUT]
            xy.append(np.tile(end, (len(between), 1)))
            op.append(np.array(between, dtype=np.uint8))
        rows = slice(part.first, part.last + 1)
        xy += [start[None, :], stitches.xy[rows]]
        op += [np.array([Op.JUMP], dtype=np.uint8), stitches.op[rows]]
        before = part
    joined = np.concatenate(op)
    return Stitches(xy=np.concatenate(xy), op=joined, tie=np.zeros(len(joined), dtype=np.bool_))
