"""Loops: rows of a line that makes a loop at every period, like a row of the letter e.

Construction: the trochoid x = P t / 2 pi + A sin t, y = A cos t, which loops where the circle
it is rolled from is larger than its step, A > P / 2 pi; `amplitude` A is half the height of a
row. A smaller amplitude gives waves without loops. Rows lie `spacing` apart, their loops
upwards and above one another. The loop in the middle stands above the centre; from the edge,
the first row lies half a spacing and the first loop half a period inside it. The row nearest to
the middle is the anchor. On a border, unless it is turned askew, rows run round it, loops
outwards, a whole number to each side; none is an anchor there. Source: geometry: elementary;
the name: "Machine Quilting Practice #7: Loop-de-loop", kathykwylie.com.
"""

from math import pi
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.layouts._rows import lay_waves, wave_repeat
from stitchpath.model.quilt import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the rows, from the top."""
    period, amplitude = _period(spec), _amplitude(spec)

    def loop(t: NDArray[np.float64]) -> Points:
        turn = 2 * pi * t
        return np.column_stack(
            [t + amplitude / period * np.sin(turn), amplitude * np.cos(turn)]
        )

    return lay_waves(ground, spec, (loop,), period_mm=period, amplitude_mm=amplitude)


def _period(spec: Quilting) -> float:
    return spec.period or spec.spacing


def _amplitude(spec: Quilting) -> float:
    return spec.amplitude or 0.4 * spec.spacing


def _repeat(spec: Quilting) -> tuple[float, float]:
    return wave_repeat(spec, _period(spec))


LAYOUT: Final = Layout(
    summary="rows of a line with loops, like a row of the letter e",
    make=make,
    keys={
        "spacing": "75 mm, from row to row",
        "period": "spacing",
        "amplitude": "0.4 x spacing",
        "start": "centre",
    },
    repeat=_repeat,
    density=lambda spec: 1 + 2 * pi * _amplitude(spec) / _period(spec),
)
