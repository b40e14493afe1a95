"""Wineglass, also called teacup: whole circles that overlap, as if traced round a glass.

Construction: circles of radius r = `spacing` / 2. In a row they touch; rows lie r apart, and
every other row is shifted by r. So the centres form a square grid of pitch r sqrt 2, standing
on a corner, and each circle meets four others in its quarter points: four petals round a
four-cornered middle. Each row is sewn as two waves of half circles, over and under by turns,
one the mirror of the other; so every circle is whole and no line has a corner. A circle's
centre lies on the centre; from the edge, a circle touches the left and the upper edge. Both
waves of the row nearest to the middle are anchors. The widest gap is that of a circle's middle,
2 r (sqrt 2 - 1) = 0.41 spacing; `angle` 45 sets the grid upright, which is the figure of
orange-peel with squares of side r sqrt 2.

Source: circles overlap and are traced round household things: from memory. Side of the square
between a circle's quarter points, d / sqrt 2: "Circle Patchwork", reddawn.net. Geometry:
elementary.
"""

from math import pi
from typing import Final

from stitchpath.layouts import _waves
from stitchpath.layouts._layout import Ground, Layout, Strand, evenly
from stitchpath.model.quilt import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return two waves to each row of circles, from the top."""
    radius = spec.spacing / 2
    across, down = (
        _waves.find_lattice(ground, spec, spec.spacing, axis=axis, edge=_waves.BETWEEN)
        for axis in (_waves.ACROSS, _waves.DOWN)
    )
    starts = _waves.Lattice(origin=across.origin - radius, step=4 * radius)
    # one circle more at the left, for rows that are shifted to the right
    low, high = _waves.extent(ground, _waves.ACROSS)
    line = _waves.long_line(_waves.bow_wave(spec.spacing, pi / 2), starts, low - radius, high)
    both = (line, _waves.mirrored(line))
    return _waves.lay_rows(
        (both, tuple(_waves.shifted(wave, across=radius) for wave in both)),
        _waves.Lattice(origin=down.origin, step=radius),
        _waves.extent(ground, _waves.DOWN, reach_mm=radius),
        middle=ground.centre[1],
    )


LAYOUT: Final = Layout(
    summary="overlapping circles, `spacing` wide, that meet in petals",
    make=make,
    keys={"spacing": "75 mm, across a circle", "start": "centre"},
    repeat=_waves.whole_squares,
    density=evenly(2 * pi),
)
