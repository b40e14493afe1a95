"""Our own SVG taken apart again, for files that are no SVG.

The pictures use a small part of SVG 1.1: groups, paths of `m`, `h` and `z` with whole numbers,
lines of text, and the transforms `scale` and `translate`. Anything else is a mistake of ours.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Final, TypeAlias
from xml.etree import ElementTree as ET

Place: TypeAlias = tuple[float, float]

_SVG: Final = "{http://www.w3.org/2000/svg}"
_TOKEN: Final = re.compile(r"[mhz]|-?\d+")
_TRANSFORM: Final = re.compile(r"(scale|translate)\((-?[\d.e-]+)(?:[ ,](-?[\d.e-]+))?\)")
_QUIET: Final = frozenset({"title", "defs"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A path or a line of text with everything that holds for it.

    Attributes:
        element: `path` or `text`.
        look: Its attributes and those of the groups round it, the nearest first.
        shift: Where its origin lies on the sheet, mm.
        scale: Its own unit in mm.
        text: What a text says.
    """

    element: str
    look: Mapping[str, str]
    shift: Place
    scale: float
    text: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """A picture's parts in the order in which they are drawn, and its box (x, y, w, h), mm."""

    box: tuple[float, float, float, float]
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class _Frame:
    look: Mapping[str, str] = field(default_factory=dict)
    shift: Place = (0.0, 0.0)
    scale: float = 1.0

    def inside(self, element: ET.Element) -> "_Frame":
        """Return the frame of an element in this one."""
        (x, y), scale = self.shift, self.scale
        found = _TRANSFORM.findall(element.get("transform", ""))
        for name, first, second in found:
            if name == "scale":
                scale *= float(first)
            else:
                x, y = x + scale * float(first), y + scale * float(second or 0)
        return _Frame({**self.look, **element.attrib}, (x, y), scale)


def svg_parts(svg: str) -> Parts:
    """Return what one of our own pictures is made of."""
    root = ET.fromstring(svg)  # noqa: S314 - our own text, made a moment ago
    x, y, width, height = (float(number) for number in root.attrib["viewBox"].split())
    return Parts(box=(x, y, width, height), parts=tuple(_walk(root, _Frame())))


def path_lines(data: str) -> Iterator[tuple[list[Place], bool]]:
    """Return a path's polylines in its own unit, each with whether it is closed.

    Example:
        >>> list(path_lines("m0 0 10 0 0 10zm5 5h0"))
        [([(0, 0), (10, 0), (10, 10)], True), ([(5, 5), (5, 5)], False)]
    """
    tokens = iter(_TOKEN.findall(data))
    x = y = 0
    line: list[Place] = []
    for token in tokens:
        if token == "z":  # noqa: S105 - a letter of a path
            yield line, True
            x, y = (int(at) for at in line[0])
            line = []
        elif token == "m":  # noqa: S105
            if line:
                yield line, False
            line = []
        elif token == "h":  # noqa: S105
            x += int(next(tokens))
            line.append((x, y))
        else:
            x, y = x + int(token), y + int(next(tokens))
            line.append((x, y))
    if line:
        yield line, False


def _walk(element: ET.Element, frame: _Frame) -> Iterator[Part]:
    for child in element:
        name, here = child.tag.removeprefix(_SVG), frame.inside(child)
        if name == "g":
            yield from _walk(child, here)
        elif name not in _QUIET:
            assert name in {"path", "text"}, name  # noqa: S101 - a picture of ours has no other
            yield Part(
                element=name,
                look=here.look,
                shift=here.shift,
                scale=here.scale,
                text=child.text or "",
            )
