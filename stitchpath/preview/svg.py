"""A few words for drawing: layers, paths, text. Everything here is plain SVG 1.1.

svgwrite writes the document round the layers. These are text as soon as they are drawn: an
object for each path and line of text, and a second tree of them to be written, would take far
longer than the drawing. svgwrite's own checks stay off for the same reason. The tests make up
for both.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from html import escape
from typing import Final, TypeAlias

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import STEPS_PER_MM
from stitchpath.preview.path_data import dots_data, lines_data
from stitchpath.preview.polylines import Polylines

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


Box: TypeAlias = tuple[float, float, float, float]


@dataclass(slots=True, kw_only=True)
class Layer:
    """A group. Like a drawing it fills up: what is added is drawn in that order.

    Attributes:
        attributes: Its own, as they stand in its tag.
    """

    attributes: str = ""
    _inside: "list[str | Layer]" = field(default_factory=list)

    def add(self, part: "str | Layer") -> None:
        """Add elements as text, or a group that is still filling up."""
        self._inside.append(part)

    @property
    def inside(self) -> str:
        """What is in it, as text."""
        return "".join(
            part if isinstance(part, str) else part.written() for part in self._inside
        )

    def written(self) -> str:
        """Return it as text."""
        inside = self.inside
        return f"<g{self.attributes}>{inside}</g>" if inside else f"<g{self.attributes} />"


@dataclass(slots=True, kw_only=True)
class Drawing(Layer):
    """All layers, in a box (x, y, width, height), mm."""

    box: Box


def new_drawing(box: Box) -> Drawing:
    """Return an empty drawing of the box (x, y, width, height) at true scale."""
    return Drawing(box=box)


def written(drawing: Drawing) -> str:
    """Return a drawing as an SVG document."""
    from svgwrite import Drawing as Document  # noqa: PLC0415 - slow to import

    x, y, width, height = (tidy(number) for number in drawing.box)
    document = Document(
        size=(f"{width}mm", f"{height}mm"),
        viewBox=f"{x} {y} {width} {height}",
        debug=False,
        font_family=FONT,
        stroke_linejoin="round",
    )
    frame, end, _ = document.tostring().rpartition("</svg>")
    return f'<?xml version="1.0" encoding="UTF-8"?>\n{frame}{drawing.inside}{end}\n'


def group(**style: str | float) -> Layer:
    """Return an empty group."""
    return Layer(attributes=_attributes(style))


def add_layer(parent: Layer, name: str, title: str, **style: str) -> Layer:
    """Add and return a group with a name for editors and a title for readers."""
    layer = group(id=name, **style)
    layer.add(_title(title))
    parent.add(layer)
    return layer


def add_lines(
    layer: Layer, lines: Polylines, *pens: Pen, per_mm: int = FINE_GRID, closed: bool = False
) -> None:
    """Add polylines as a path for each pen; none where there is nothing to draw."""
    _add_paths(layer, lines_data(lines, per_mm=per_mm, closed=closed), pens, per_mm)


def add_dots(layer: Layer, places: Points, *pens: Pen, per_mm: int = FINE_GRID) -> None:
    """Add round dots, a pen's width across, as a path for each pen."""
    _add_paths(layer, dots_data(places, per_mm=per_mm), pens, per_mm)


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
    block.add(
        "".join(
            [
                f'<text x="{written_number(x)}" y="{written_number(y)}"{_text_inside(words)}'
                for words, (x, y) in lines
            ]
        )
    )
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
    if text.isascii() and text.isprintable() and "  " not in text:
        return text
    return _BLANKS.sub(" ", _NOT_XML.sub("", text))


def tidy(number: float) -> float:
    """Return a number with at most three decimals, whole ones as integers.

    Example:
        >>> tidy(2.00004), tidy(-0.0001), tidy(1.2346)
        (2, 0, 1.235)
    """
    rounded = round(float(number), 3)
    return int(rounded) if rounded.is_integer() else rounded


def written_number(number: float) -> str:
    """Return a number as `tidy` rounds it, in letters: in half the time where there are many.

    Example:
        >>> written_number(2.00004), written_number(-0.0001), written_number(1.2346)
        ('2', '0', '1.235')
    """
    digits = f"{number:.3f}".rstrip("0").rstrip(".")
    return "0" if digits == "-0" else digits


def _add_paths(layer: Layer, data: str, pens: Sequence[Pen], per_mm: int) -> None:
    if data:
        layer.add("".join(f'<path d="{data}"{_look(pen, per_mm)} />' for pen in pens))


@lru_cache(maxsize=512)
def _look(pen: Pen, per_mm: int) -> str:
    """Return how a path looks, as attributes of its tag."""
    look = {"fill": pen.fill, "transform": f"scale({1 / per_mm})"}
    if pen.stroke != "none":
        width = str(tidy(pen.width * per_mm))
        look |= {"stroke": pen.stroke, "stroke_width": width, "stroke_linecap": pen.cap}
    if pen.dash:
        look["stroke_dasharray"] = ",".join(str(tidy(part * per_mm)) for part in pen.dash)
    return _attributes(look)


def _attributes(values: Mapping[str, str | float]) -> str:
    """Return attributes in alphabetical order, `_` in their names as `-`."""
    return _in_order(tuple((name, str(value)) for name, value in values.items()))


@lru_cache(maxsize=512)
def _in_order(values: tuple[tuple[str, str], ...]) -> str:
    named = sorted((name.replace("_", "-"), value) for name, value in values)
    return "".join(f' {name}="{escape(value)}"' for name, value in named)


@lru_cache(maxsize=512)
def _title(words: str) -> str:
    text = plain(words)
    return f"<title>{escape(text, quote=False)}</title>" if text else "<title />"


@lru_cache(maxsize=4096)
def _text_inside(words: str) -> str:
    """Return what follows the attributes of a line of text, up to its end."""
    text = plain(words)
    return f">{escape(text, quote=False)}</text>" if text else " />"
