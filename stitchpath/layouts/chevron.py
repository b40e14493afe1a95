"""Chevron, or zigzag: rows of straight ups and downs.

Construction: a polyline whose corners lie `period` / 2 apart, in turn `amplitude` above and
below the row's middle; rows are `spacing` apart. A peak of a row's wave stands over the
middle, and the row's own middle runs through it; or a peak touches the upper left corner;
fitted, whole zigzags and rows fill the area. The
row nearest to the middle is the anchor. By default the corners are right angles. Source:
geometry, elementary.
"""

from math import hypot
from typing import Final

import numpy as np

from stitchpath.layouts import _waves
from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.model.quilt import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return zigzag rows across the width."""
    left, top, right, bottom = ground.region.bounds
    amplitude = _amplitude_mm(spec)
    steps = _period_mm(spec), spec.spacing
    x, y = _waves.find_origin(ground, spec, steps, edge=_waves.BETWEEN)
    if spec.start == "edge":
        x, y = left, top + amplitude
    half = _period_mm(spec) / 2
    corner = np.arange(np.floor((left - x) / half), np.ceil((right - x) / half) + 1)
    rows = np.arange(
        np.ceil((top - amplitude - y) / spec.spacing),
        np.floor((bottom + amplitude - y) / spec.spacing) + 1,
    )
    wave = np.column_stack([x + corner * half, np.where(corner % 2, amplitude, -amplitude)])
    middles = y + rows * spec.spacing
    nearest = np.argmin(np.abs(middles - ground.centre[1])) if len(rows) else -1
    return tuple(
        Strand(points=wave + np.array([0.0, middle]), anchor=bool(row == nearest))
        for row, middle in enumerate(middles)
    )


def _period_mm(spec: Quilting) -> float:
    return 2 * spec.spacing if spec.period is None else spec.period


def _amplitude_mm(spec: Quilting) -> float:
    return spec.spacing / 2 if spec.amplitude is None else spec.amplitude


def _repeat(spec: Quilting) -> tuple[float, float]:
    return _waves.whole_steps(spec, _period_mm(spec), spec.spacing)


LAYOUT: Final = Layout(
    summary="rows of zigzag; a peak stands over the middle",
    make=make,
    keys={
        "spacing": "75 mm, from row to row",
        "period": "2 x spacing, from peak to peak",
        "amplitude": "spacing / 2",
        "start": "centre",
    },
    repeat=_repeat,
    cut_shows=(False, True),
    density=lambda spec: hypot(1, 4 * _amplitude_mm(spec) / _period_mm(spec)),
)
