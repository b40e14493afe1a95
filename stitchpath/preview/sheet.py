"""The page round a drawing: title block, legend, scale bar, caution."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from stitchpath.preview.colours import INK, PAGE, SOFT_INK
from stitchpath.preview.labels import Box, wrapped
from stitchpath.preview.legend import COLUMN, Entry, draw_legend, legend_height
from stitchpath.preview.look import Look
from stitchpath.preview.marks import box
from stitchpath.preview.scale_bar import draw_scale_bar
from stitchpath.preview.svg import Drawing, Pen, add_layer, add_lines, add_texts, new_drawing
from stitchpath.units import Unit

TITLE: Final = 1.8
"""Height of the title as a share of the text's."""
_LEADING: Final = 1.35
_EDGE: Final = 2.0
_GAP: Final = 1.6
_SCALE_ROW: Final = 32.0
_NARROWEST: Final = 38.0  # so that a title and a caution have room beside a small drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class Caption:
    """What is written round a drawing.

    Attributes:
        title: The project's name.
        facts: What the drawing shows, a line each.
        notes: Under the drawing, such as how to be safe.
    """

    title: str
    facts: tuple[str, ...]
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Where everything lies, in the drawing's own frame, mm.

    Attributes:
        page: The whole page.
        drawn: The drawing.
        legend: The legend's upper left corner.
        columns: Of the legend.
        scale: The scale bar's left end.
        notes: Where notes begin.
        caption: The title's lines, the facts' lines, the notes' lines.
    """

    page: Box
    drawn: Box
    legend: tuple[float, float]
    columns: int
    scale: tuple[float, float]
    notes: tuple[float, float]
    caption: tuple[list[str], list[str], list[str]]


def lay_out(drawn: Box, caption: Caption, entries: Sequence[Entry], text: float) -> Sheet:
    """Return where everything lies round a drawing.

    The legend stands to the right of an upright drawing and below a wide one.
    """
    x0, y0, x1, y1 = drawn
    beside = bool(entries) and (y1 - y0) > 0.8 * (x1 - x0)
    right = x1 + (_GAP + COLUMN) * text if beside else x1
    width = max(right - x0, _NARROWEST * text)
    lines = (
        wrapped(caption.title, size=TITLE * text, width=width),
        [part for fact in caption.facts for part in wrapped(fact, size=text, width=width)],
        [part for note in caption.notes for part in wrapped(note, size=text, width=width)],
    )
    head = _LEADING * text * (TITLE * len(lines[0]) + len(lines[1])) + _GAP * text
    columns = 1 if beside else max(1, int(width // (COLUMN * text)))
    high = legend_height(entries, text=text, columns=columns)
    narrow = beside and x1 - x0 < _SCALE_ROW * text  # the legend would be in the way
    scale = (max(y1, y0 + high) if narrow else y1) + 1.2 * text
    under = scale + (0.5 + _GAP) * text
    legend = (x1 + _GAP * text, y0) if beside else (x0, under)
    notes = max(under, y0 + high + text) if beside else under + high + text
    foot = notes + _LEADING * text * len(lines[2])
    edge = _EDGE * text
    return Sheet(
        page=(x0 - edge, y0 - head - edge, x0 + width + edge, foot + edge),
        drawn=drawn,
        legend=legend,
        columns=columns,
        scale=(x0, scale),
        notes=(x0, notes),
        caption=lines,
    )


def begin(sheet: Sheet) -> Drawing:
    """Return a drawing at true scale with nothing on it but the white page."""
    x0, y0, x1, y1 = sheet.page
    drawing = new_drawing((x0, y0, x1 - x0, y1 - y0))
    page = add_layer(drawing, "page", "page")
    add_lines(page, box(*sheet.page), Pen(fill=PAGE), closed=True)
    return drawing


def finish(
    drawing: Drawing, sheet: Sheet, entries: Sequence[Entry], look: Look, *, unit: Unit
) -> float:
    """Add title, legend, scale bar and notes; return where the scale bar's text ends, x."""
    text = look.text
    title, facts, notes = sheet.caption
    x, y = sheet.drawn[0], sheet.page[1] + _EDGE * text
    block = add_layer(drawing, "title", "title")
    add_texts(
        block, _rows(title, x, y, TITLE * text), TITLE * text, fill=INK, font_weight="bold"
    )
    y += len(title) * _LEADING * TITLE * text
    add_texts(block, _rows(facts, x, y, text), text, fill=SOFT_INK)
    draw_legend(drawing, sheet.legend, entries, look, columns=sheet.columns)
    layer = add_layer(drawing, "notes", "notes")
    add_texts(layer, _rows(notes, *sheet.notes, text), text, fill=INK, font_weight="bold")
    width = sheet.drawn[2] - sheet.drawn[0]
    return draw_scale_bar(drawing, sheet.scale, width_mm=width, unit=unit, text=text)


def _rows(
    lines: Sequence[str], x: float, y: float, size: float
) -> list[tuple[str, tuple[float, float]]]:
    """Return lines of text with their places, the first one below y."""
    return [(words, (x, y + (row * _LEADING + 1) * size)) for row, words in enumerate(lines)]
