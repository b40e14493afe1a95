"""Sizes of a picture, in mm of the picture; docs/visual-language.md says why.

Text and marks grow with the picture, so that a whole quilt and a small corner both read well.
What lies along the thread is held back where lines lie close together.
"""

import math
from dataclasses import dataclass, replace
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import segment_lengths
from stitchpath.preview.colours import CLOTH, INK, lay_colour
from stitchpath.preview.polylines import Polylines, bounds_of

TEXT_SHARE: Final = 1 / 66  # of the longer side: 11 px on a screen 1000 px high
LEAST_TEXT_MM: Final = 2.3  # 6.5 point: small print that can still be read on paper
_LEAST_SIGN_MM: Final = 2.65  # names and numbers, 0.8 of a sign, then have 6 point
_LEAST_MARK_MM: Final = 1.2
_MARK_OF_PITCH: Final = 1.0
_BAND_OF_MARK: Final = 0.42
_BAND_OF_PITCH: Final = 0.3
_DOT_OF_BAND: Final = 0.4
_LEAST_BAND_MM: Final = 0.8
_DOT_OF_STITCH: Final = 0.36


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """Sizes (mm) and the colours that follow from the thread.

    Attributes:
        text: Height of the text beside the drawing.
        mark: Size of the marks along the thread; a start is about 0.6 of it across.
        sign: Size of the signs of hoopings: tops, crosses, numbers of fields.
        band: Width of the colours of order along a run.
        dot: Width of a needle point.
        thread_colour: The top thread's.
    """

    text: float
    mark: float
    sign: float
    band: float
    dot: float
    thread_colour: str

    def of_thread(self, colour: str) -> "Look":
        """Return the same look with a thread of another colour, `#rrggbb`."""
        return replace(self, thread_colour=colour)

    @property
    def lay(self) -> float:
        """Width of what the thread lies on."""
        return self.band * 0.52

    @property
    def thread(self) -> float:
        """Width of the thread."""
        return self.band * 0.24

    @property
    def lay_colour(self) -> str:
        """Colour of what the thread lies on."""
        return lay_colour(self.thread_colour)

    @property
    def dot_colour(self) -> str:
        """Colour of needle points: stands out from what the thread lies on."""
        return INK if self.lay_colour == CLOTH else CLOTH

    @property
    def hair(self) -> float:
        """The thinnest line."""
        return self.mark * 0.06

    def for_legend(self) -> "Look":
        """Return the look of the samples in a legend: everything as large as the text."""
        band = _BAND_OF_MARK * self.text
        return replace(self, mark=self.text, sign=self.text, band=band, dot=_DOT_OF_BAND * band)


def choose_look(
    strands: Polylines, *, longer_side_mm: float, widest_mark_mm: float, thread_colour: str
) -> Look:
    """Return sizes that suit a picture.

    Args:
        strands: What is sewn in it.
        longer_side_mm: Of the drawing.
        widest_mark_mm: What a mark may measure beside the fields it stands in.
        thread_colour: The top thread's, `#rrggbb`.
    """
    share = longer_side_mm * TEXT_SHARE
    lengths = segment_lengths(strands.points)
    sign = max(min(max(share, _LEAST_SIGN_MM), widest_mark_mm), _LEAST_MARK_MM)
    pitch, usual = _pitch(strands, lengths), _usual_stitch(lengths)
    mark = max(min(sign, _MARK_OF_PITCH * pitch), _LEAST_MARK_MM)
    band = max(min(_BAND_OF_MARK * mark, _BAND_OF_PITCH * pitch), _LEAST_BAND_MM)
    return Look(
        text=max(share, LEAST_TEXT_MM),
        mark=mark,
        sign=sign,
        band=band,
        dot=min(_DOT_OF_BAND * band, _DOT_OF_STITCH * usual),
        thread_colour=thread_colour,
    )


def _pitch(strands: Polylines, lengths: NDArray[np.float64]) -> float:
    """Return about how far apart lines lie: area over length."""
    between = strands.starts[1:] - 1
    moved = lengths[between]
    lengths[between] = 0.0
    length = float(lengths.sum())
    lengths[between] = moved
    if not length:
        return math.inf
    x0, y0, x1, y1 = bounds_of(strands.points)
    width, height = x1 - x0, y1 - y0
    return max(width * height, _LEAST_BAND_MM * (width + height)) / length


def _usual_stitch(lengths: NDArray[np.float64]) -> float:
    """Return the length in the middle of all, which come out in another order."""
    return float(np.median(lengths, overwrite_input=True)) if len(lengths) else math.inf
