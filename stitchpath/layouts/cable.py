"""Cable, of two strands a twist: rows of waves that cross one another.

Construction: `count` sine waves of one period P, y = A sin(2 pi (x / P + k / count)); two make
a row of eyes, P / 2 long and 2 A wide, more a braid. A row is 2 A wide; rows lie `spacing`
apart. With two strands a crossing of the middle row lies on the centre; from the edge, the
first row lies half a spacing inside it. All strands of the row nearest to the middle are
anchors. On a border, unless it is turned askew, rows run round it and turn its corners, a whole
number of periods to each side; none is an anchor there.

Source: an eye is about 1.4 times as long as it is wide, and lengths are adjusted until whole
ones fill the border: C. Gibbs, "Drafting Cable Borders", carolyngibbsquilts.co.uk. Geometry:
elementary.
"""

from typing import Final

from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.layouts._rows import lay_waves, wave_repeat
from stitchpath.layouts._waves import sine
from stitchpath.model.quilt import Quilting

EYE_LENGTH: Final = 1.4
"""Of an eye, by its width."""


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the strands of each row, row by row from the top."""
    amplitude, count = _amplitude(spec), spec.count or 2
    waves = tuple(sine(amplitude, share=strand / count) for strand in range(count))
    return lay_waves(ground, spec, waves, period_mm=_period(spec), amplitude_mm=amplitude)


def _amplitude(spec: Quilting) -> float:
    return spec.amplitude or spec.spacing / 3


def _period(spec: Quilting) -> float:
    return spec.period or 4 * EYE_LENGTH * _amplitude(spec)


def _density(spec: Quilting) -> float:
    """Return that of waves no longer than the way straight along and four times up or down."""
    return (spec.count or 2) * (1 + 4 * _amplitude(spec) / _period(spec))


def _repeat(spec: Quilting) -> tuple[float, float]:
    return wave_repeat(spec, _period(spec))


LAYOUT: Final = Layout(
    summary="rows of waves that twist round one another",
    make=make,
    keys={
        "spacing": "75 mm, from row to row",
        "count": "2 strands to a row",
        "amplitude": "spacing / 3",
        "period": "5.6 x amplitude",
        "start": "centre",
    },
    repeat=_repeat,
    density=_density,
)
