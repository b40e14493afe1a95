"""Rows that run round a frame-shaped border, and turn its corners.

A row follows the middle of the border, a rectangle with rounded corners. Each side, from the
middle of one corner to the middle of the next, holds a whole number of periods, so that all
corners look alike and each line closes on itself.
"""

from dataclasses import dataclass
from math import floor, pi
from typing import TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.curves import curve_points
from stitchpath.geometry.points import Points
from stitchpath.layouts._layout import Ground, Strand
from stitchpath.layouts._waves import Wave
from stitchpath.model.quilt import Quilting

Box: TypeAlias = tuple[float, float, float, float]

_CORNER_RADIUS = 1.5
"""Of a row's middle line where it turns most, in amplitudes: more than 1, so that the inner
side of a wave is not folded, and small, so that the corner of the border is filled. Common
practice, no source."""

_PIECES = 8  # of a period, for flattening


def _heading(share: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return how far a corner has turned at a share of its length.

    It turns at a rate of 1 - cos, so that it begins and ends without a jump and waves beside it
    stay smooth; in its middle it turns twice as fast as an arc of its length.
    """
    return pi / 2 * share - np.sin(2 * pi * share) / 4


_SHARES = np.linspace(0.0, 0.5, 4097)  # of the first half of a corner
_MIDWAY = _heading((_SHARES[1:] + _SHARES[:-1]) / 2)
_ALONG, _ASIDE = (
    np.concatenate([[0.0], np.cumsum(part) * _SHARES[1]])
    for part in (np.cos(_MIDWAY), np.sin(_MIDWAY))
)
_REACH = float(_ALONG[-1] + _ASIDE[-1])
"""How far from the corner of the box a corner of length 1 begins."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Track:
    """The middle line of a row: a box with smooth corners of a length, clockwise as it lies."""

    box: Box
    corner: float

    @property
    def sides(self) -> tuple[float, float]:
        """Lengths along the upper and the right side, from corner middle to corner middle."""
        left, top, right, bottom = self.box
        more = (1 - 2 * _REACH) * self.corner
        return right - left + more, bottom - top + more

    def place(self, share: NDArray[np.float64], out_mm: NDArray[np.float64]) -> Points:
        """Return points beside the track.

        Args:
            share: Where, in sides from the middle of the upper left corner; taken modulo 4.
            out_mm: How far outside the track.
        """
        side = np.floor(share).astype(np.int64) % 4
        beyond = (share % 1.0 - 0.5) * np.take(self.sides, side % 2)
        straight = (np.take(self.sides, side % 2) - self.corner) / 2
        bent = np.maximum(np.abs(beyond) - straight, 0.0) / self.corner
        turned = _heading(bent)
        # on the upper side: right of its middle, and below it
        run = np.minimum(np.abs(beyond), straight)
        run += np.interp(bent, _SHARES, _ALONG) * self.corner + out_mm * np.sin(turned)
        below = np.interp(bent, _SHARES, _ASIDE) * self.corner - out_mm * np.cos(turned)
        return self._turned(side, np.copysign(run, beyond), below)

    def _turned(
        self, side: NDArray[np.int64], run: NDArray[np.float64], below: NDArray[np.float64]
    ) -> Points:
        """Return points of the upper side, turned by quarters to the sides they are on."""
        left, top, right, bottom = self.box
        x, y = (left + right) / 2, (top + bottom) / 2
        inward = below - np.take((y - top, right - x), side % 2)
        cos, sin = np.take((1, 0, -1, 0), side), np.take((0, 1, 0, -1), side)
        return np.column_stack([x + cos * run - sin * inward, y + sin * run + cos * inward])


def runs_round(spec: Quilting) -> bool:
    """Return whether a layout of rows runs round a border rather than across it."""
    return spec.area is not None and spec.area.border is not None and spec.angle % 90 == 0


def lay_round(
    ground: Ground,
    spec: Quilting,
    waves: tuple[Wave, ...],
    *,
    period_mm: float,
    amplitude_mm: float,
) -> tuple[Strand, ...]:
    """Return rows of waves round a border, from the outermost; none is an anchor.

    As many rows lie side by side, `spacing` apart, as the border has room for, one at least.
    """
    outer, inner = _boxes(ground, spec)
    band = min(abs(a - b) for a, b in zip(outer, inner, strict=True))
    count = max(1, floor((band - 2 * amplitude_mm) / spec.spacing) + 1)
    middle = [(a + b) / 2 for a, b in zip(outer, inner, strict=True)]
    strands: list[Strand] = []
    for row in range(count):
        out = ((count - 1) / 2 - row) * spec.spacing
        box = (middle[0] - out, middle[1] - out, middle[2] + out, middle[3] + out)
        track = _track(box, amplitude_mm)
        if track is not None:
            strands += [Strand(points=_closed(track, wave, period_mm)) for wave in waves]
    return tuple(strands)


def _track(box: Box, amplitude: float) -> Track | None:
    """Return a row's track, or None where there is no room for its corners."""
    corner = pi * _CORNER_RADIUS * amplitude  # its middle turns by pi / length
    shorter = min(box[2] - box[0], box[3] - box[1])
    return Track(box=box, corner=corner) if 2 * _REACH * corner < shorter else None


def _closed(track: Track, wave: Wave, period: float) -> Points:
    """Return a wave along a whole track, a whole number of periods to each side."""
    counts = [max(1, round(side / period)) for side in track.sides]
    # a side before the track and one after it, for loops that reach back and ahead
    ends = np.cumsum([-counts[1], counts[1], *counts * 2, counts[0]])
    shares = np.arange(-1, 6)

    def place(parameter: NDArray[np.float64]) -> Points:
        along, below = wave(parameter).T
        return track.place(np.interp(along, ends, shares), -below)

    total = 2 * sum(counts)
    points = curve_points(place, 0.0, float(total), pieces=_PIECES * total)
    points[-1] = points[0]
    return points


def _boxes(ground: Ground, spec: Quilting) -> tuple[Box, Box]:
    """Return the outer and the inner box of a border, its margins taken off."""
    holes = [
        shapely.Polygon(ring).bounds
        for part in shapely.get_parts(ground.region)
        for ring in part.interiors
    ]
    if holes:
        inner = max(holes, key=lambda box: (box[2] - box[0]) * (box[3] - box[1]))
        return ground.region.bounds, inner
    width = (ground.border_mm or 0.0) - spec.margin
    left, top, right, bottom = ground.frame
    return ground.region.bounds, (left + width, top + width, right - width, bottom - width)
