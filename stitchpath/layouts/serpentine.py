"""Serpentine: rows of one wavy line.

Construction: y = A sin(2 pi x / P), rows `spacing` apart and all in step, so that the gap
between two rows, measured down, is `spacing` everywhere. The middle row crosses its own middle
line at the centre; from the edge, the first row lies half a spacing inside it. The row nearest
to the middle is the anchor. On a border, unless it is turned askew, rows run round it and turn
its corners, a whole number of periods to each side; none is an anchor there. Source: geometry:
elementary; the name: "Machine Quilting with a Serpentine Stitch", bethannwilliams.com.
"""

from typing import Final

from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.layouts._rows import lay_waves, wave_repeat
from stitchpath.layouts._waves import sine
from stitchpath.model.quilt import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the rows, from the top."""
    amplitude = _amplitude(spec)
    return lay_waves(
        ground, spec, (sine(amplitude),), period_mm=_period(spec), amplitude_mm=amplitude
    )


def _period(spec: Quilting) -> float:
    return spec.period or 2 * spec.spacing


def _amplitude(spec: Quilting) -> float:
    return spec.amplitude or spec.spacing / 4


def _repeat(spec: Quilting) -> tuple[float, float]:
    return wave_repeat(spec, _period(spec))


LAYOUT: Final = Layout(
    summary="rows of a wavy line, all in step",
    make=make,
    keys={
        "spacing": "75 mm, from row to row",
        "period": "2 x spacing",
        "amplitude": "spacing / 4",
        "start": "centre",
    },
    repeat=_repeat,
    cut_shows=(False, True),
    density=lambda spec: 1 + 4 * _amplitude(spec) / _period(spec),
)
