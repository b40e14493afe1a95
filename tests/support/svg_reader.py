"""Reads back the SVG that the pictures are made of, without any code of theirs."""

import re
from typing import Final
from xml.etree import ElementTree as ET

import numpy as np

from stitchpath.geometry.points import Points

SVG: Final = "{http://www.w3.org/2000/svg}"

ELEMENTS: Final = frozenset(
    re.findall(
        r"\S+",
        """
        a altGlyph altGlyphDef altGlyphItem animate animateColor animateMotion
        animateTransform circle clipPath color-profile cursor defs desc ellipse feBlend
        feColorMatrix feComponentTransfer feComposite feConvolveMatrix feDiffuseLighting
        feDisplacementMap feDistantLight feFlood feFuncA feFuncB feFuncG feFuncR
        feGaussianBlur feImage feMerge feMergeNode feMorphology feOffset fePointLight
        feSpecularLighting feSpotLight feTile feTurbulence filter font font-face font-face-
        format font-face-name font-face-src font-face-uri foreignObject g glyph glyphRef hkern
        image line linearGradient marker mask metadata missing-glyph mpath path pattern
        polygon polyline radialGradient rect script set stop style svg switch symbol text
        textPath title tref tspan use view vkern
        """,
    )
)
"""Source: Scalable Vector Graphics (SVG) 1.1, W3C Recommendation, second edition of 16 August
2011, appendix "Element Index"."""

_WORD: Final = re.compile(r"[mhz]|-?\d+")


def layer(svg: str, name: str) -> ET.Element:
    """Return the group of a name; it has to be there once."""
    groups = ET.fromstring(svg).iter(f"{SVG}g")  # noqa: S314 - our own text
    found = [group for group in groups if group.get("id") == name]
    assert len(found) == 1, name
    return found[0]


def path_in(svg: str, name: str, *, stroke: str) -> list[Points]:
    """Return the polylines of the only path with a stroke in a layer, in mm."""
    paths = [p for p in layer(svg, name).findall(f"{SVG}path") if p.get("stroke") == stroke]
    assert len(paths) == 1, stroke
    return polylines(paths[0])


def polylines(path: ET.Element) -> list[Points]:
    """Return what a path draws, in mm; the path is scaled and moved by nothing else."""
    scale = re.fullmatch(r"scale\(([\d.]+)\)", path.get("transform", ""))
    assert scale is not None
    return [line * float(scale[1]) for line in parsed(path.get("d", ""))]


def parsed(data: str) -> list[Points]:
    """Return the polylines of path data that uses relative `m`, `h` and `z` with integers.

    Source: SVG 1.1, 8.3: a leading `m` is absolute, pairs after the first pair of an `m` are
    relative linetos, and after `z` the current point is where the subpath began.
    """
    words = _WORD.findall(data)
    assert "".join(words) == re.sub(r"\s", "", data)
    at, rest = np.zeros(2), iter(words)
    lines: list[list[Points]] = []
    for word in rest:
        if word == "z":
            at = lines[-1][0]
        elif word == "m":
            at = at + _pair(next(rest), next(rest))
            lines.append([at])
        elif word == "h":
            at = at + _pair(next(rest), "0")
            lines[-1].append(at)
        else:
            at = at + _pair(word, next(rest))
            lines[-1].append(at)
    return [np.array(line) for line in lines]


def _pair(x: str, y: str) -> Points:
    return np.array([float(x), float(y)])


def texts(svg: str, name: str) -> list[str]:
    """Return the texts in a layer."""
    return [text.text or "" for text in layer(svg, name).iter(f"{SVG}text")]
