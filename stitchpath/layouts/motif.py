"""Motif: a maker's own drawing, placed once, repeated in rows, or led round a border.

Construction: the strokes of an SVG file, scaled to `width` in proportion. `single`: its middle
at `at`. `straight`: rows and columns of copies, `gap` apart, a copy's middle at `at` (or the
first in the area's upper left corner, where `start` is `edge`), or, fitted, whole copies from
side to side; `half-drop`: every other column half a step lower, so that copies interlock where
there is no gap; `mirrored`: every other column turned over, left for right. `border`: copies
along the middle of a border, their tops to the outside, one set across each corner, as many
between the corners as fit best, evenly spaced. `angle` turns rows about `at`, and a single
motif or each motif of a border about its middle. Repeats: common practice, no source. Geometry:
elementary.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.families import unit_vector
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import FLATNESS_MM
from stitchpath.layouts._copies import LEAST_STEP_MM
from stitchpath.layouts._grounds import place_drawing
from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.layouts._waves import whole_steps
from stitchpath.model.drawing import Drawing
from stitchpath.model.quilt import Quilting

_RIGHT_ANGLE: Final = 90.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Motif:
    """Strokes about their common middle, and the size of their box, mm."""

    strokes: list[Points]
    width: float
    height: float


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Copies:
    """Where copies lie: middles (n, 2), mm; turns in degrees (n,); which are turned over."""

    middles: Points
    turns: NDArray[np.float64]
    flipped: NDArray[np.bool_]


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the strokes of every copy, copy by copy."""
    if spec.svg is None:
        return ()
    motif = _motif(spec, _width(ground, spec))
    if spec.repeat == "single":
        copies = _copies(np.array([spec.at or ground.centre]), spec.angle)
    elif spec.repeat == "border":
        copies = _round_border(ground, motif, spec)
    else:
        copies = _in_rows(ground, motif, spec)
    strokes = len(motif.strokes)
    return tuple(
        Strand(points=points, motif=number // strokes)
        for number, points in enumerate(_laid(motif, copies))
    )


def motif_step(spec: Quilting, width_mm: float | None = None) -> tuple[float, float]:
    """Return the step from copy to copy across and down, mm; the layout has an `svg`."""
    motif, gap = _motif(spec, width_mm if width_mm is not None else spec.width), spec.gap or 0.0
    return max(motif.width + gap, LEAST_STEP_MM), max(motif.height + gap, LEAST_STEP_MM)


def _width(ground: Ground, spec: Quilting) -> float | None:
    """Return the width to scale to; in a border without one, what fills its width."""
    if spec.width is not None or spec.repeat != "border" or ground.border_mm is None:
        return spec.width
    own = _motif(spec, None)
    if own.height == 0:
        return None
    outer, inner = _band(ground, spec, own)
    return own.width * max(inner - outer, LEAST_STEP_MM) / own.height


def _band(ground: Ground, spec: Quilting, motif: _Motif) -> tuple[float, float]:
    """Return how far inside the frame a border begins, and ends: clear of edge and margins."""
    sides = np.abs(np.subtract(ground.region.bounds, ground.frame))
    outer = float(sides.min())
    if ground.border_mm is None:
        return outer, outer + motif.height
    return outer, max(ground.border_mm - spec.margin, outer)


def _motif(spec: Quilting, width_mm: float | None) -> _Motif:
    strokes = place_drawing(_drawing(spec).strokes, width_mm=width_mm, middle=(0.0, 0.0))
    lines = shapely.simplify(
        [shapely.LineString(stroke) for stroke in strokes], FLATNESS_MM / 2
    )
    width, height = np.ptp(np.concatenate(strokes), axis=0)
    return _Motif(
        strokes=[shapely.get_coordinates(line) for line in lines],
        width=float(width),
        height=float(height),
    )


def _drawing(spec: Quilting) -> Drawing:
    if not isinstance(spec.svg, Drawing):
        raise TypeError("a motif has a drawing")
    return spec.svg


def _copies(middles: Points, angle_deg: float) -> _Copies:
    count = len(middles)
    return _Copies(
        middles=middles,
        turns=np.full(count, angle_deg),
        flipped=np.zeros(count, dtype=np.bool_),
    )


def _in_rows(ground: Ground, motif: _Motif, spec: Quilting) -> _Copies:
    """Return the copies of a pattern that meet the region, row by row."""
    origin = np.array(ground.centre if spec.fit or spec.at is None else spec.at)
    turn = np.stack([unit_vector(spec.angle), unit_vector(spec.angle + _RIGHT_ANGLE)])
    region = shapely.transform(ground.region, lambda points: (points - origin) @ turn.T)
    low, high = np.reshape(region.bounds, (2, 2))
    size = np.array([motif.width, motif.height])
    step = np.maximum(size + (spec.gap or 0.0), LEAST_STEP_MM)
    first = _first_copy(spec, low, high, size, step)
    columns, rows = (
        np.arange(np.floor((low[way] - first[way]) / step[way]) - 1, last + 2)
        for way, last in enumerate(np.ceil((high - first) / step))
    )
    column, row = np.meshgrid(columns, rows)
    odd = column % 2 == 1
    drop = np.where(odd, 0.5, 0.0) if spec.repeat == "half-drop" else np.zeros_like(row)
    middles = np.stack([column, row + drop], axis=-1).reshape(-1, 2) * step + first
    boxes = shapely.box(*(middles - size / 2).T, *(middles + size / 2).T)
    shapely.prepare(region)
    meets = shapely.intersects(region, boxes)
    return _Copies(
        middles=middles[meets] @ turn + origin,
        turns=np.full(int(meets.sum()), spec.angle),
        flipped=odd.ravel()[meets] & (spec.repeat == "mirrored"),
    )


def _first_copy(
    spec: Quilting, low: Points, high: Points, size: Points, step: Points
) -> Points:
    """Return where a copy's middle lies; fitted, whole copies reach from side to side."""
    if spec.start == "edge":
        return low + size / 2
    is_even = np.round((high - low) / step) % 2 == 0
    return np.where(is_even & spec.fit, step / 2, 0.0)


def _round_border(ground: Ground, motif: _Motif, spec: Quilting) -> _Copies:
    """Return copies along the middle of a border, clockwise from its upper left corner."""
    left, top, right, bottom = ground.frame
    inset = sum(_band(ground, spec, motif)) / 2
    corners = np.array([(left, top), (right, top), (right, bottom), (left, bottom)])
    corners = corners + np.array([(1, 1), (-1, 1), (-1, -1), (1, -1)]) * inset
    sides = np.roll(corners, -1, axis=0) - corners
    middles, turns = [], []
    for number, (corner, side) in enumerate(zip(corners, sides, strict=True)):
        length = side @ unit_vector(_RIGHT_ANGLE * number)
        if length <= 0:
            return _copies(np.empty((0, 2)), 0.0)
        step = max(motif.width + (spec.gap or 0.0), LEAST_STEP_MM)
        count = max(1, round(length / step))
        middles.append(corner + np.arange(count)[:, None] / count * side)
        turns.append(np.full(count, _RIGHT_ANGLE * number))
        turns[-1][0] -= _RIGHT_ANGLE / 2  # the corner's own
    along = np.concatenate(turns)
    return _Copies(
        middles=np.concatenate(middles),
        turns=along + spec.angle,
        flipped=np.zeros(len(along), dtype=np.bool_),
    )


def _laid(motif: _Motif, copies: _Copies) -> Iterator[Points]:
    """Yield the strokes of each copy on the piece."""
    if not len(copies.middles):
        return
    angles, index = np.unique(copies.turns, return_inverse=True)
    turns = np.array([(unit_vector(a), unit_vector(a + _RIGHT_ANGLE)) for a in angles.tolist()])
    flip = np.where(copies.flipped, -1.0, 1.0)[:, None] * turns[index, 0]
    frames = np.stack([flip, turns[index, 1]], axis=1)
    every = [stroke @ frames + copies.middles[:, None] for stroke in motif.strokes]
    for copy in range(len(copies.middles)):
        for laid in every:
            yield laid[copy]


def _repeat(spec: Quilting) -> tuple[float, float]:
    if spec.svg is None or spec.repeat in {"single", "border"} or spec.angle % _RIGHT_ANGLE:
        return 0.0, 0.0
    across, down = motif_step(spec)
    ways = (across, down) if spec.angle % (2 * _RIGHT_ANGLE) == 0 else (down, across)
    return whole_steps(spec, *ways)


LAYOUT: Final = Layout(
    summary="your own drawing (SVG): once, in rows, or round a border",
    make=make,
    keys={
        "svg": "needed",
        "width": "the drawing's own; round a border, what fills it",
        "at": "the middle of the area",
        "repeat": "single",
        "gap": "0 mm, copies touch; in a half-drop they interlock",
        "start": "centre",
        "angle": "0",
    },
    repeat=_repeat,
    turns=False,
)
