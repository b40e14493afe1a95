"""Orange peel, also called pumpkin seed or continuous curve: four petals at every crossing.

Construction: on a grid of squares of side g = `spacing`, an arc on either side of every side of
a square: quarters of circles of radius g / sqrt 2 round the squares' centres. Each line of the
grid is sewn as two long waves, arcs to one side and to the other by turns, one wave beginning
where the other does not; so all arcs lie in waves down and across, without a corner in any. A
crossing lies on the centre; from the edge, grid lines lie on the left and the upper edge. Both
waves on the middle line of each direction are anchors, lengthwise first. The widest gap is that
of the figure's four-cornered part, (2 - sqrt 2) g = 0.59 g.

Source: the three names, and that it is sewn as continuous lines along the seams of squares: T.
Wright, "Quilting Motif 5 - Pumpkin Seeds", polkadotpeep.com. Side and diameter, g = d / sqrt 2:
"Circle Patchwork", reddawn.net. Geometry: elementary.
"""

from math import pi
from typing import Final

from stitchpath.layouts import _waves
from stitchpath.layouts._layout import Ground, Layout, Strand, evenly
from stitchpath.model.quilt import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the waves down, then the waves across."""
    return _waves.lay_petals(ground, spec, pi / 4, edge=_waves.ON_EDGE)


LAYOUT: Final = Layout(
    summary="petals along every side of a grid of squares",
    make=make,
    keys={"spacing": "75 mm, the side of a square", "start": "centre"},
    repeat=_waves.whole_squares,
    density=evenly(4.5),
)
