"""Text: one line of writing, such as a quilt's label.

Construction: the letters of a single-stroke font (see `_font`), capitals `height` high, side by
side as wide as the font has them; the middle of the written line, and halfway up its capitals,
lies at `at`, and `angle` turns it about that point. Source: the package Hershey-Fonts, whose
data are in the public domain.
"""

from typing import Final

import numpy as np

from stitchpath.geometry.families import unit_vector
from stitchpath.geometry.points import Points
from stitchpath.layouts._font import text_strokes
from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.model.quilt import Quilting

HEIGHT_MM: Final = 40.0
"""The dot of an i is about a quarter as long: enough for three stitches of 2.8 mm."""


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the strokes of the text, in the order of writing."""
    return tuple(Strand(points=points, motif=0) for points in lay_text(spec, ground.centre))


def lay_text(spec: Quilting, centre: tuple[float, float]) -> list[Points]:
    """Return the strokes of a layout's text on the piece; `at` goes before the centre."""
    strokes = text_strokes(spec.text, spec.height or HEIGHT_MM)
    if not strokes:
        return []
    x = np.concatenate(strokes)[:, 0]
    middle = [(x.min() + x.max()) / 2, 0.0]
    turn = np.stack([unit_vector(spec.angle), unit_vector(spec.angle + 90)])
    return [(stroke - middle) @ turn + (spec.at or centre) for stroke in strokes]


LAYOUT: Final = Layout(
    summary="one line of text in plain letters of a single stroke",
    make=make,
    keys={
        "text": "needed",
        "height": "40 mm",
        "at": "the middle of the area",
        "angle": "0, turns it about its middle",
    },
    turns=False,
)
