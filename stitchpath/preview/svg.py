"""A few words over svgwrite: layers, paths, text. Everything here is plain SVG 1.1.

svgwrite's own checks stay off: they take far longer than the writing. The tests
make up for it.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final, TypeAlias

import svgwrite
from svgwrite.container import Group
from svgwrite.path import Path
from svgwrite.text import Text

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import STEPS_PER_MM
from stitchpath.preview.path_data import dots_data, lines_data
from stitchpath.preview.polylines import Polylines

Drawing: TypeAlias = svgwrite.Drawing
Layer: TypeAlias = Group

FONT: Final = "Arial, Helvetica, 'Liberation Sans', 'DejaVu Sans', sans-serif"
STITCH_GRID: Final = STEPS_PER_MM
"""Steps in a millimetre for stitches: what every stitch file has."""
FINE_GRID: Final = 100
"""Steps in a millimetre for marks."""

_NOT_XML: Final = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_BLANKS: Final = re.compile(r"[\s\x7f-\x9f\u2028-\u202e\u2066-\u2069]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Pen:
    """How a path is drawn; lengths in mm."""

    stroke: str = "none"
    width: float = 0.0
    fill: str = "none"
    dash: tuple[float, ...] = ()
    cap: str = "round"


def new_drawing(box: tuple[float, float, float, float]) -> Drawing:
    """Return an empty drawing of the box (x, y, width, height) at true scale."""
    x, y, width, height = (tidy(number) for number in box)
    return svgwrite.Drawing(
        size=(f"{width}mm", f"{height}mm"),
        viewBox=f"{x} {y} {width} {height}",
        debug=False,
        font_family=FONT,
        stroke_linejoin="round",
    )


def written(drawing: Drawing) -> str:
    """Return a drawing as an SVG document."""
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{drawing.tostring()}\n'


def group(**style: str | float) -> Layer:
    """Return an empty group."""
    return Group(debug=False, **style)


def add_layer(parent: Drawing | Layer, name: str, title: str) -> Layer:
    """Add and return a group with a name for editors and a title for readers."""
    layer = group(id=name)
    layer.set_desc(title=plain(title))
    parent.add(layer)
    return layer


def add_lines(
    layer: Layer, lines: Polylines, pen: Pen, *, per_mm: int = FINE_GRID, closed: bool = False
) -> None:
    """Add polylines as one path; none where there is nothing to draw."""
    _add_path(layer, lines_data(lines, per_mm=per_mm, closed=closed), pen, per_mm)


def add_dots(layer: Layer, places: Points, pen: Pen, *, per_mm: int = FINE_GRID) -> None:
    """Add round dots, `pen.width` across, as one path."""
    _add_path(layer, dots_data(places, per_mm=per_mm), pen, per_mm)


def add_texts(
    layer: Layer,
    lines: Sequence[tuple[str, tuple[float, float]]],
    size: float,
    **style: str,
) -> None:
    """Add lines of text, each with its baseline at a place, all `size` mm high."""
    if not lines:
        return
    block = group(font_size=tidy(size), **style)
    for words, (x, y) in lines:
        block.add(Text(plain(words), insert=(tidy(x), tidy(y)), debug=False))
    layer.add(block)


def plain(text: str) -> str:
    r"""Return text on one line, without characters that XML or a reader cannot stand.

    Source: XML 1.0 (W3C), production 2, Char. Controls and marks that turn the direction of
    writing go too, since they would spill over to the text beside them.

    Example:
        >>> plain("Harbour\x07 <Lights>\n")
        'Harbour <Lights>'
    """
    return one_line(text).strip()


def one_line(text: str) -> str:
    """Return the same with a blank at its ends kept, for text beside which more stands."""
    return _BLANKS.sub(" ", _NOT_XML.sub("", text))


def tidy(number: float) -> float:
    """Return a number with at most three decimals, whole ones as integers.

    Example:
        >>> tidy(2.00004), tidy(-0.0001), tidy(1.2346)
        (2, 0, 1.235)
    """
    rounded = round(float(number), 3)
    return int(rounded) if rounded.is_integer() else rounded


def _add_path(layer: Layer, data: str, pen: Pen, per_mm: int) -> None:
    if not data:
        return
    look: dict[str, Any] = {"fill": pen.fill}
    if pen.stroke != "none":
        look |= {"stroke": pen.stroke, "stroke_width": tidy(pen.width * per_mm)}
        look["stroke_linecap"] = pen.cap
    if pen.dash:
        look["stroke_dasharray"] = ",".join(str(tidy(part * per_mm)) for part in pen.dash)
    layer.add(Path(d=data, transform=f"scale({1 / per_mm})", debug=False, **look))
