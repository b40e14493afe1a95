"""The sheet before a stage's templates: all its hoopings in small, its marks, and a square."""

from collections.abc import Sequence
from typing import Final

import numpy as np

from stitchpath.catalog.papers import Paper
from stitchpath.geometry.points import Points
from stitchpath.model.plan import Stage
from stitchpath.preview.labels import Box, Room, place_label, widened
from stitchpath.preview.letters import fitted
from stitchpath.preview.pdf import Ink, Pages, Place
from stitchpath.preview.pdf import text_width as pdf_width
from stitchpath.preview.template_sheets import CONTROL, CONTROL_MM, cross, draw_frame
from stitchpath.preview.tiles import upright
from stitchpath.preview.words import MARK_HEADS, mark_measures
from stitchpath.units import Unit

_GAP: Final = 8.0
_SMALL: Final = 3.0
_ROW: Final = 4.4
_COLUMNS: Final = (0.0, 12.0, 36.0, 60.0, 84.0, 108.0, 158.0)
"""Where the columns of the table begin, mm; the paper is 190 mm wide inside."""
_OUTLINE: Final = Ink(width=0.4)
_FIELD: Final = Ink(width=0.25, grey=0.35)
_SHADOW: Final = Ink(width=0.2, grey=0.5, dash=(1.5, 1.0))
_MARK: Final = Ink(width=0.25)


def draw_overview(pages: Pages, name: str, stage: Stage, paper: Paper, unit: Unit) -> None:
    """Add a stage's overview; its table of marks goes on over more sheets where it is long.

    Args:
        pages: Where it is added.
        name: The project's.
        stage: What to show.
        paper: What it is printed on.
        unit: Of the table's lengths.
    """
    page = upright(paper)
    x0, y0, x1, y1 = page.room
    rows = _rows(stage, unit)
    below = y0 + CONTROL_MM + 3 * _GAP
    fits = int((y1 - below) / _ROW) - 1
    pages.begin(page.width, page.height)
    draw_frame(pages, page, name, f"stage {stage.name}, all hoopings")
    _draw_small(pages, stage, (x0, y0, x1 - x0 - CONTROL_MM - _GAP, CONTROL_MM + 2 * _GAP))
    _draw_square(pages, (x1 - CONTROL_MM, y0))
    _draw_table(pages, rows[:fits], (x0, below), x1)
    more = int((y1 - y0) / _ROW) - 1
    for start in range(fits, len(rows), more):
        pages.begin(page.width, page.height)
        draw_frame(pages, page, name, f"stage {stage.name}, marks, continued")
        _draw_table(pages, rows[start : start + more], (x0, y0 + _ROW), x1)


def _rows(stage: Stage, unit: Unit) -> list[tuple[str, ...]]:
    return [
        (
            mark.name,
            *mark_measures(mark.place, stage.piece, unit),
            ", ".join(map(str, mark.hoopings)),
        )
        for mark in stage.marks
    ]


def _draw_small(pages: Pages, stage: Stage, room: tuple[float, float, float, float]) -> None:
    """Draw the piece with its fields, their numbers and its marks, as large as fits."""
    piece = stage.piece
    every = np.vstack([piece.outline, *(sewn.hooping.corners for sewn in stage.hoopings)])
    low, extent = every.min(axis=0), np.ptp(every, axis=0)
    scale = float(min(room[2] / extent[0], room[3] / extent[1]))

    def small(points: Points) -> Points:
        return np.asarray((points - low) * scale + room[:2])

    pages.lines([small(piece.outline)], _OUTLINE)
    if piece.shadow is not None:
        pages.lines([small(piece.shadow)], _SHADOW)
    rings = [sewn.hooping.corners[[0, 1, 2, 3, 0]] for sewn in stage.hoopings]
    pages.lines([small(ring) for ring in rings], _FIELD)
    text = float(np.clip(min(np.ptp(ring, axis=0).min() for ring in rings) * scale / 4, 1.6, 4))
    for sewn in stage.hoopings:
        x, y = small(np.array([sewn.hooping.centre]))[0].tolist()
        number = f"{sewn.hooping.number}"
        pages.text((x, y + text / 3), number, text, anchor="middle", bold=True)
    places = [(mark.name, small(np.array([mark.place]))[0].tolist()) for mark in stage.marks]
    for _, (x, y) in places:
        pages.lines(cross((x, y), text / 3), _MARK)
    for name, at in _named(places, text, (*room[:2], room[0] + room[2], room[1] + room[3])):
        pages.text_apart(at, name, 0.7 * text)


def _named(
    places: Sequence[tuple[str, Place]], text: float, within: Box
) -> list[tuple[str, Place]]:
    """Return where the names of marks begin, beside their crosses and off the others."""
    room, size = Room(cell=text, within=within), 0.7 * text
    apart = 0.2 * size
    for _, (x, y) in places:
        room.take(widened((x, y, x, y), text / 4))
    named = []
    for name, at in places:
        extent = (pdf_width(name, size) + 2 * apart, 0.75 * size)
        if where := place_label(at, extent, room, gap=text / 4, must=True):
            named.append((name, (where[0] + apart, where[3])))
    return named


def _draw_square(pages: Pages, corner: Place) -> None:
    x, y = corner
    ring = np.array([[0, 0], [1, 0], [1, 1], [0, 1], [0, 0]]) * CONTROL_MM + corner
    pages.lines([ring], CONTROL)
    words = (
        "This square is 100 mm wide and high.",
        "Print at 100 %, never fitted to the page, and",
        "measure it both ways before a template is used.",
        "",
        "A template shows a hooping as it lies in the hoop:",
        "its lines, its field, and its marks. Lay sheets of",
        "one hooping cross on cross and tape them together.",
        "Lay the template on the piece, its marks on the",
        "piece's marks, and see that the lines go on where",
        "the last hooping's stitches end.",
        "Take paper and pins out of the field before sewing.",
    )
    for number, line in enumerate(words):
        pages.text((x + 5, y + 10 + 5 * number), line, 3.4)


def _draw_table(pages: Pages, rows: list[tuple[str, ...]], at: Place, right: float) -> None:
    ends = (*_COLUMNS[1:], right - at[0])
    for number, row in enumerate([MARK_HEADS, *rows]):
        y = at[1] + number * _ROW
        for start, end, cell in zip(_COLUMNS, ends, row, strict=True):
            words = fitted(cell, _SMALL, end - start - 1)
            pages.text((at[0] + start, y), words, _SMALL, bold=number == 0)
