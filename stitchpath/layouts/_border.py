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
from stitchpath.model.project import Quilting

Box: TypeAlias = tuple[float, float, float, float]

_CORNER_RADIUS = 1.5
"""Of a row's middle line, in amplitudes: more than 1, so that the inner side of a wave is not
folded, and small, so that the corner of the border is filled. Common practice, no source."""

_PIECES = 8  # of a period, for flattening


@dataclass(frozen=True, slots=True, kw_only=True)
class Track:
    """The middle line of a row: a rectangle with rounded corners, clockwise as it lies."""

    box: Box
    radius: float

    @property
    def sides(self) -> tuple[float, float]:
        """Lengths along the upper and the right side, from corner middle to corner middle."""
        left, top, right, bottom = self.box
        turn = (pi / 2 - 2) * self.radius
        return right - left + turn, bottom - top + turn

    def place(self, share: NDArray[np.float64], out_mm: NDArray[np.float64]) -> Points:
        """Return points beside the track.

        Args:
            share: Where, in sides from the middle of the upper left corner; taken modulo 4.
            out_mm: How far outside the track.
        """
        side = np.floor(share).astype(np.int64) % 4
        length = np.take(self.sides, side % 2)
        beyond = (share % 1.0 - 0.5) * length
        straight = np.maximum(length / 2 - pi / 4 * self.radius, 0.0)
        bend = np.sign(beyond) * np.maximum(np.abs(beyond) - straight, 0.0) / self.radius
        run = np.clip(beyond, -straight, straight)
        # on the upper side, its middle at the origin; then turned into its place
        level = self.radius + out_mm
        own = np.column_stack([run + level * np.sin(bend), self.radius - level * np.cos(bend)])
        left, top, right, bottom = self.box
        middle = ((left + right) / 2, (top + bottom) / 2)
        own[:, 1] -= np.take((middle[1] - top, right - middle[0]), side % 2)
        turn = pi / 2 * side
        cos, sin = np.round(np.cos(turn)), np.round(np.sin(turn))
        return np.column_stack(
            [
                middle[0] + cos * own[:, 0] - sin * own[:, 1],
                middle[1] + sin * own[:, 0] + cos * own[:, 1],
            ]
        )


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
    shorter = min(box[2] - box[0], box[3] - box[1])
    radius = _CORNER_RADIUS * amplitude
    return Track(box=box, radius=radius) if 2 * radius < shorter else None


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
