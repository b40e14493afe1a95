"""The shapes of an SVG file that are seen, each with the matrix it is seen through."""

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Final
from xml.etree.ElementTree import Element

import numpy as np

from stitchpath.project.svg_curves import Stroke, read_path, shape_data
from stitchpath.project.svg_gate import DEEPEST, SVG
from stitchpath.project.svg_style import StyleSheets
from stitchpath.project.svg_units import (
    MM_PER_PIXEL,
    Matrix,
    Units,
    read_numbers,
    read_transform,
    shift,
    view,
)

MOST_VISITS: Final = 20_000
"""Elements drawn, those that are drawn again by `<use>` counted each time."""

MOST_NUMBERS: Final = 40_000
"""In path data, and in that of basic shapes: about 6,000 curves, read in two seconds."""
MOST_CURVES: Final = 20_000

_LONGEST: Final = 200  # characters of a viewBox; read again for each copy
_DIGITS: Final = re.compile(r"[\d.]+", re.ASCII)
_SHAPES: Final = frozenset({"path", "rect", "circle", "ellipse", "line", "polyline", "polygon"})
_DRAWN: Final = _SHAPES | {"g", "a", "switch", "svg", "use"}
"""Elements that show something, or have such in them."""
_DEFAULT_SIZE: Final = (300.0, 150.0)
"""Pixels of a drawing that says nothing of its size (CSS 2.1, 10.3.2)."""
_LINK: Final = "{http://www.w3.org/1999/xlink}href"
_STYLE: Final[Mapping[str, str]] = {
    "fill": "black",
    "stroke": "none",
    "visibility": "visible",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scene:
    """What an element takes from those around it."""

    matrix: Matrix
    units: Units
    style: Mapping[str, str] = field(default_factory=lambda: _STYLE)
    used: tuple[str, ...] = ()
    depth: int = 0


class Outlines:
    """Walks a file once, and counts what it leaves out.

    Attributes:
        ignored: How many of what kind: `hidden`, `unpainted`, or a link that leads nowhere.
    """

    def __init__(self, root: Element) -> None:
        """Prepare for walking a file that has passed the gate."""
        self.ignored: Counter[str] = Counter()
        self._root = root
        self._sheets = StyleSheets(root)
        self._by_id = {one.get("id", ""): one for one in reversed(list(root.iter()))}
        self._strokes: dict[tuple[Element, Units], tuple[Stroke, ...]] = {}
        self._transforms: dict[str, Matrix] = {}
        self._visits = self._curves = self._numbers = 0

    def strokes(self) -> Iterator[Stroke]:
        """Yield the strokes that are seen, in mm, in the order of drawing.

        Raises:
            ValueError: Something cannot be read, or it is too much.
        """
        scale = np.diag([MM_PER_PIXEL, MM_PER_PIXEL, 1.0])
        scene = _Scene(matrix=scale, units=Units(width=0.0, height=0.0))
        yield from self._draw(self._root, scene)

    def _draw(self, element: Element, scene: _Scene) -> Iterator[Stroke]:
        if scene.depth > DEEPEST:
            raise ValueError(f"the file draws more than {DEEPEST} elements within each other")
        self._visits = _counted(self._visits + 1, MOST_VISITS, "elements")
        tag = str(element.tag).removeprefix(SVG)
        if tag not in _DRAWN:
            return
        own = self._sheets.own_style(element)
        if own.get("display") == "none":
            self.ignored["hidden"] += 1
            return
        scene = self._entered(element, scene, own)
        yield from self._drawn(element, tag, scene)

    def _drawn(self, element: Element, tag: str, scene: _Scene) -> Iterator[Stroke]:
        if tag in _SHAPES:
            return self._shape(element, tag, scene)
        if tag == "use":
            return self._use(element, scene)
        if tag == "svg":
            return self._viewport(element, scene, element)
        return self._inner(element, scene)

    def _entered(self, element: Element, scene: _Scene, own: Mapping[str, str]) -> _Scene:
        matrix, units = scene.matrix, scene.units
        if "transform" in element.attrib:
            matrix = matrix @ self._transform(element.attrib["transform"])
        if "font-size" in own:
            units = replace(units, font_size=_font_size(own["font-size"], units))
        inherited = {name: value for name, value in own.items() if value != "inherit"}
        style = {**scene.style, **inherited}
        return replace(scene, matrix=matrix, units=units, style=style, depth=scene.depth + 1)

    def _transform(self, text: str) -> Matrix:
        """Read a transform once, however often it is drawn."""
        if text not in self._transforms:
            self._transforms[text] = read_transform(text)
        return self._transforms[text]

    def _inner(self, element: Element, scene: _Scene) -> Iterator[Stroke]:
        for child in element:
            yield from self._draw(child, scene)

    def _shape(self, element: Element, tag: str, scene: _Scene) -> Iterator[Stroke]:
        if scene.style["visibility"] != "visible":
            self.ignored["hidden"] += 1
            return
        if scene.style["fill"] == "none" and scene.style["stroke"] == "none":
            self.ignored["unpainted"] += 1
            return
        for stroke in self._read(element, tag, scene.units):
            self._curves = _counted(self._curves + len(stroke.curves), MOST_CURVES, "curves")
            yield stroke.seen(scene.matrix)

    def _read(self, element: Element, tag: str, units: Units) -> tuple[Stroke, ...]:
        """Read a shape once, however often it is drawn."""
        known = (element, units)
        if known not in self._strokes:
            data = shape_data(tag, element.attrib, units)
            numbers = self._numbers + sum(1 for _ in _DIGITS.finditer(data))
            self._numbers = _counted(numbers, MOST_NUMBERS, "numbers")
            self._strokes[known] = read_path(data)
        return self._strokes[known]

    def _use(self, element: Element, scene: _Scene) -> Iterator[Stroke]:
        link = element.get("href", element.get(_LINK, ""))
        name = link.removeprefix("#")
        target = self._by_id.get(name) if link.startswith("#") and name else None
        if target is None:
            self.ignored["use"] += 1
            return
        if name in scene.used:
            raise ValueError(f"the file draws `{name[:30]}` within itself")
        moved = scene.matrix @ _corner(element, scene.units)
        scene = replace(scene, matrix=moved, used=(*scene.used, name))
        if target.tag in {f"{SVG}symbol", "symbol"}:
            yield from self._viewport(target, scene, element)
        else:
            yield from self._draw(target, scene)

    def _viewport(self, element: Element, scene: _Scene, sized: Element) -> Iterator[Stroke]:
        """Draw what is in an `<svg>` or `<symbol>`, whose size another element may say."""
        box = read_numbers(element.get("viewBox", "")[:_LONGEST])
        if element is self._root:
            width, height = _page_size(element, box, scene.units)
        else:
            width = scene.units.read(sized.get("width", "100%"), "across")
            height = scene.units.read(sized.get("height", "100%"), "down")
            scene = replace(scene, matrix=scene.matrix @ _corner(element, scene.units))
        if not (width > 0 and height > 0):
            return
        matrix = scene.matrix
        if _is_box(box):
            align = element.get("preserveAspectRatio", "")[:_LONGEST]
            matrix = matrix @ view((box[0], box[1], box[2], box[3]), (width, height), align)
            width, height = box[2:]
        units = replace(scene.units, width=width, height=height)
        yield from self._inner(element, replace(scene, matrix=matrix, units=units))


def _counted(count: int, most: int, things: str) -> int:
    """Return a count, if it is not too much."""
    if count > most:
        raise ValueError(f"the file draws more than {most:,} {things}, copies counted")
    return count


def _corner(element: Element, units: Units) -> Matrix:
    """Return how far an element's `x` and `y` move what is in it."""
    x = units.read(element.get("x", "0"), "across")
    return shift(x, units.read(element.get("y", "0"), "down"))


def _page_size(root: Element, box: list[float], units: Units) -> tuple[float, float]:
    """Return the size of the outermost viewport in pixels; without one, that of the viewBox."""
    width, height = (
        units.read(text, "across") if (text := root.get(name, "")) and "%" not in text else None
        for name in ("width", "height")
    )
    across, down = (box[2], box[3]) if _is_box(box) else _DEFAULT_SIZE
    if width is None:
        width = across if height is None else height * across / down
    return width, width * down / across if height is None else height


def _is_box(box: list[float]) -> bool:
    return len(box) == 4 and min(box[2:]) > 0  # noqa: PLR2004 - x, y, width, height


def _font_size(text: str, units: Units) -> float:
    try:
        return replace(units, width=units.font_size).read(text, "across")
    except ValueError:
        return units.font_size  # a word such as `larger`: sizes in em are rare, and near enough
