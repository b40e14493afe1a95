"""An even grid of cells over a stage's lines; each cell is sewn from a field placed on it."""

from dataclasses import dataclass
from math import ceil

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import JOIN_ROOM_MM, ROUNDING_MM, SAME_POINT_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Cells of equal size, numbered row by row from the top left.

    Attributes:
        origin: The top left corner, mm.
        pitch: Width and height of a cell, mm.
        columns: Cells in a row.
        rows: Rows of cells.
        reach: Width and height, on the piece, of what the needle reaches from a cell's centre.
        turn_deg: How the field lies on the piece, 0 or 90.
    """

    origin: tuple[float, float]
    pitch: tuple[float, float]
    columns: int
    rows: int
    reach: tuple[float, float]
    turn_deg: float

    def borders(self, axis: int) -> NDArray[np.float64]:
        """Return where inner borders lie along x (axis 0) or y (axis 1)."""
        count = (self.columns, self.rows)[axis]
        inner = np.arange(1, count, dtype=np.float64)
        return self.origin[axis] + inner * self.pitch[axis]

    def cells_of(self, points: Points) -> NDArray[np.intp]:
        """Return the cell each point lies in; what lies outside belongs to the nearest cell."""
        column, row = (
            np.searchsorted(self.borders(axis) - SAME_POINT_MM, points[:, axis], side="right")
            for axis in (0, 1)
        )
        return np.asarray(row * self.columns + column)

    def centre(self, cell: int) -> tuple[float, float]:
        """Return the middle of a cell, mm."""
        row, column = divmod(cell, self.columns)
        return (
            self.origin[0] + (column + 0.5) * self.pitch[0],
            self.origin[1] + (row + 0.5) * self.pitch[1],
        )

    def is_reached(self, points: Points, cell: int) -> bool:
        """Whether all points lie within reach of a cell's field."""
        far = np.abs(points - self.centre(cell)).max(axis=0)
        return bool(np.all(far <= np.array(self.reach) / 2 + SAME_POINT_MM))


def reach_of(field: tuple[float, float], *, turn_deg: float) -> tuple[float, float]:
    """Return what the needle reaches on the piece, less the room that rounding needs."""
    width, height = (side - ROUNDING_MM for side in field)
    return (width, height) if turn_deg == 0 else (height, width)


def even_grid(
    box: NDArray[np.float64],
    *,
    reach: tuple[float, float],
    overlap_mm: float,
    turn_deg: float,
    extra: tuple[int, int] = (0, 0),
) -> Grid:
    """Return the coarsest even grid whose cells, with the overlap, are within reach.

    Args:
        box: x0, y0, x1, y1 of the lines, mm.
        reach: What the needle reaches on the piece; wider than the overlap, mm.
        overlap_mm: What both sides of a join sew; half of it lies in the neighbouring cell.
        turn_deg: How the field lies on the piece.
        extra: More columns and rows than needed.

    Example:
        >>> grid = even_grid(
        ...     np.array([0, 0, 500, 290]), reach=(200, 300), overlap_mm=6, turn_deg=0
        ... )
        >>> grid.columns, grid.rows
        (3, 1)
    """
    extents = box[2:] - box[:2]
    counts = [
        1 if extent <= side else ceil(extent / (side - max(overlap_mm, JOIN_ROOM_MM)))
        for extent, side in zip(extents, reach, strict=True)
    ]
    columns, rows = (count + more for count, more in zip(counts, extra, strict=True))
    return Grid(
        origin=(float(box[0]), float(box[1])),
        pitch=(float(extents[0]) / columns, float(extents[1]) / rows),
        columns=columns,
        rows=rows,
        reach=reach,
        turn_deg=turn_deg,
    )
