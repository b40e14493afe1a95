"""A single-stroke font: letters as lines to be sewn, from the package Hershey-Fonts.

The letters are those that A. V. Hershey digitised at the US National Bureau of Standards, in
the public domain; the style is `futural`, plain and without serifs. A capital is 21 units high,
from the base line at 9 to the cap line at -12 (the package's own description of the data).
"""

from collections.abc import Mapping
from functools import cache
from typing import Final

import numpy as np

from stitchpath.geometry.points import Points, frozen_points

_STYLE: Final = "futural"
_BASE_LINE: Final = 9.0
_CAPITAL: Final = 21.0

_Polyline = list[tuple[float, float]]


def lacking_characters(text: str) -> tuple[str, ...]:
    """Return the characters of a text that the font has no letter for, each once.

    Example:
        >>> lacking_characters("Café 26, Łódź")
        ('é', 'Ł', 'ó', 'ź')
    """
    return tuple(dict.fromkeys(character for character in text if character not in _letters()))


def text_strokes(text: str, height_mm: float) -> list[Points]:
    """Return the strokes of a line of text, letter by letter from the left.

    Args:
        text: Characters that the font lacks are passed over.
        height_mm: Of a capital, > 0.

    Returns:
        Polylines in mm; the first letter begins at x = 0, capitals stand between y =
        -height_mm / 2 and height_mm / 2. Strokes of a letter that meet at their ends are one.

    Example:
        >>> (stroke,) = text_strokes("L", 21)
        >>> stroke.tolist()
        [[4.0, -10.5], [4.0, 10.5], [16.0, 10.5]]
    """
    scale = height_mm / _CAPITAL
    middle = _BASE_LINE - _CAPITAL / 2
    left, strokes = 0.0, list[Points]()
    for character in text:
        width, letter = _letters().get(character, (0.0, ()))
        strokes += [(stroke + np.array([left, -middle])) * scale for stroke in letter]
        left += width
    return strokes


@cache
def _letters() -> Mapping[str, tuple[float, tuple[Points, ...]]]:
    """Return each character's width and strokes, x from its left side, in the font's units."""
    from HersheyFonts import HersheyFonts  # noqa: PLC0415 - seldom needed

    font = HersheyFonts()
    font.load_default_font(_STYLE)
    glyphs = font.all_glyphs
    letters = {}
    for character, glyph in glyphs.items():
        if not character.isprintable():
            continue  # a block, where ASCII has none
        strokes = _joined([[*map(tuple, stroke)] for stroke in glyph.strokes])
        letters[character] = (
            float(glyph.char_width),
            tuple(frozen_points(np.array(s) - [glyph.left_offset, 0]) for s in strokes),
        )
    return letters


def _joined(strokes: list[_Polyline]) -> list[_Polyline]:
    """Return strokes with those that meet at their ends made one."""
    chains: list[_Polyline] = []
    waiting = [stroke for stroke in strokes if len(stroke) > 1]
    while waiting:
        chain = waiting.pop(0)
        while (found := _continued(chain, waiting)) is not None:
            chain = found
        chains.append(chain)
    return chains


def _continued(chain: _Polyline, waiting: list[_Polyline]) -> _Polyline | None:
    """Take a stroke that begins or ends where a chain does, and return the longer chain."""
    for index, stroke in enumerate(waiting):
        for part in (stroke, stroke[::-1]):
            if part[0] == chain[-1]:
                del waiting[index]
                return chain + part[1:]
            if part[-1] == chain[0]:
                del waiting[index]
                return part[:-1] + chain
    return None
