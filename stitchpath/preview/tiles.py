"""A large drawing divided over sheets of paper that overlap."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import Final, TypeAlias

from stitchpath.catalog.papers import Paper
from stitchpath.geometry.tolerance import SAME_POINT_MM

Box: TypeAlias = tuple[float, float, float, float]
"""x0, y0, x1, y1 in mm."""

MARGIN_MM: Final = 10.0
"""Left free round a sheet: what usual printers cannot reach. Common practice, no source."""
HEAD_MM: Final = 9.0
"""For what the sheet is."""
FOOT_MM: Final = 12.0
"""For the line to measure."""
OVERLAP_MM: Final = 10.0
"""What neighbouring sheets both show."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """A sheet of paper as it lies: upright, or turned.

    Attributes:
        width: Of the sheet, mm.
        height: Of the sheet, mm.
    """

    width: float
    height: float

    @property
    def room(self) -> Box:
        """What may be drawn on, between head and foot."""
        return (
            MARGIN_MM,
            MARGIN_MM + HEAD_MM,
            self.width - MARGIN_MM,
            self.height - MARGIN_MM - FOOT_MM,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Tile:
    """One sheet's part of a drawing.

    Attributes:
        column: From 0, from the left.
        row: From 0, from the top.
        box: The part, in the drawing's own frame.
    """

    column: int
    row: int
    box: Box


def upright(paper: Paper) -> Page:
    """Return a sheet as it is named."""
    return Page(width=paper.width, height=paper.height)


def tile(box: Box, paper: Paper) -> tuple[Page, tuple[Tile, ...]]:
    """Return how sheets lie and the part of a drawing that each shows, row by row.

    Parts are equally large, overlap by `OVERLAP_MM` and cover the drawing. Sheets lie upright
    or turned, whichever takes fewer.

    Example:
        >>> from stitchpath.catalog.papers import PAPERS
        >>> page, tiles = tile((-100, -150, 100, 150), PAPERS["a4"])
        >>> page.width, [one.box for one in tiles]
        (297.0, [(-100.0, -150.0, 100.0, 5.0), (-100.0, -5.0, 100.0, 150.0)])
    """
    pages = (upright(paper), Page(width=paper.height, height=paper.width))
    cuts = [(_parts(box, page, 0), _parts(box, page, 1)) for page in pages]
    best = min((0, 1), key=lambda way: len(cuts[way][0]) * len(cuts[way][1]))
    across, along = cuts[best]
    return pages[best], tuple(
        Tile(column=column, row=row, box=(x0, y0, x1, y1))
        for row, (y0, y1) in enumerate(along)
        for column, (x0, x1) in enumerate(across)
    )


def _parts(box: Box, page: Page, axis: int) -> Sequence[tuple[float, float]]:
    low, extent = box[axis], box[axis + 2] - box[axis]
    room = page.room[axis + 2] - page.room[axis]
    count = max(1, ceil((extent - OVERLAP_MM) / (room - OVERLAP_MM) - SAME_POINT_MM))
    pitch = (extent - OVERLAP_MM) / count
    return [
        (low + part * pitch, low + part * pitch + pitch + OVERLAP_MM) for part in range(count)
    ]
