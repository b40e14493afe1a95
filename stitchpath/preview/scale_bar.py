"""A scale bar in the project's unit and in millimetres."""

from typing import Final

from stitchpath.preview.colours import INK, PAGE
from stitchpath.preview.labels import text_width
from stitchpath.preview.marks import box
from stitchpath.preview.svg import Drawing, Pen, add_layer, add_lines, add_texts, tidy
from stitchpath.units import MM_PER, Unit, format_length

_NICE: Final[dict[Unit, tuple[float, ...]]] = {
    "mm": (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000),
    "cm": (0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 50, 100, 200),
    "in": (1 / 8, 1 / 4, 1 / 2, 1, 2, 3, 6, 12, 24, 36, 72),
}
"""Lengths that a ruler shows."""


def bar_length(width_mm: float, unit: Unit) -> float:
    """Return the longest length of a ruler within a quarter of a width, mm; or the shortest.

    Example:
        >>> bar_length(1117.6, "in"), bar_length(200, "mm"), bar_length(2, "cm")
        (152.4, 50.0, 1.0)
    """
    lengths = [round(nice * MM_PER[unit], 4) for nice in _NICE[unit]]
    return max((length for length in lengths if length <= width_mm / 4), default=lengths[0])


def bar_text(length_mm: float, unit: Unit) -> str:
    """Return what is written beside the bar.

    Example:
        >>> bar_text(152.4, "in"), bar_text(50, "mm")
        ('6 in = 152.4 mm', '50 mm')
    """
    in_mm = f"{tidy(length_mm)} mm"
    return in_mm if unit == "mm" else f"{format_length(length_mm, unit)} = {in_mm}"


def draw_scale_bar(
    drawing: Drawing, at: tuple[float, float], *, width_mm: float, unit: Unit, text: float
) -> float:
    """Draw a bar of two fields, its left end at a place; return where its text ends, x."""
    length, (x, y) = bar_length(width_mm, unit), at
    layer = add_layer(drawing, "scale", "scale bar")
    height, middle = 0.5 * text, x + length / 2
    pen = Pen(stroke=INK, width=0.08 * text)
    add_lines(layer, box(x, y, middle, y + height), Pen(fill=INK), closed=True)
    add_lines(layer, box(middle, y, x + length, y + height), Pen(fill=PAGE), closed=True)
    add_lines(layer, box(x, y, x + length, y + height), pen, closed=True)
    words = bar_text(length, unit)
    start = x + length + 0.8 * text
    add_texts(layer, [(words, (start, y + 0.6 * text))], text, fill=INK)
    return start + text_width(words, text)
