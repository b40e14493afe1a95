"""Lines as SVG: a path for each run, a user unit a millimetre.

Source: Scalable Vector Graphics (SVG) 1.1, W3C Recommendation 2011: 8.3 path data (M and L take
absolute places; a path may have several subpaths), 7.10 units (`mm` in width and height, a
viewBox that scales them).
"""

import re
import xml.etree.ElementTree as ET
from html import escape
from typing import Final

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.machine.line_work import DECIMALS, LineWork, Stretches

_SVG: Final = "{http://www.w3.org/2000/svg}"
_STROKE_MM: Final = 0.3


def encode_svg(work: LineWork) -> bytes:
    """Return an SVG file; its origin is the field's centre, x to the right and y down."""
    width, height = work.field
    box = " ".join(map(number, (-width / 2, -height / 2, width, height)))
    paths = "".join(
        f'<path id="run-{nth}" d="{" ".join(map(_subpath, run))}"/>\n'
        for nth, run in enumerate(work.runs, 1)
    )
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{number(width)}mm" '
        f'height="{number(height)}mm" viewBox="{box}">\n'
        f"<title>{escape(work.name, quote=False)}</title>\n"
        f'<g fill="none" stroke="{work.colour}" stroke-width="{_STROKE_MM}">\n'
        f"{paths}</g>\n</svg>\n"
    ).encode()


def decode_svg(data: bytes, _work: LineWork) -> list[Stretches]:
    """Return the runs of a file just written."""
    root = ET.fromstring(data)  # noqa: S314 - our own bytes, a moment old
    return [
        tuple(
            np.array(re.findall(r"[-\d.]+", part), dtype=np.float64).reshape(-1, 2)
            for part in path.attrib["d"].split("M")[1:]
        )
        for path in root.iter(f"{_SVG}path")
    ]


def number(value: float) -> str:
    """Return a number as short as it can be written, without an exponent.

    Example:
        >>> number(12.5), number(-3.0), number(0.0001)
        ('12.5', '-3', '0')
    """
    text = f"{value:.{DECIMALS}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _subpath(points: Points) -> str:
    places = [f"{number(x)},{number(y)}" for x, y in points.tolist()]
    return f"M{places[0]} L{' '.join(places[1:])}"
