"""Terry twist: chains of rings across and down, each ring linked with the one it crosses.

Construction: on a grid of squares of side g = `spacing`, two arcs join the middles of each
square's left and right sides, and two the middles of its upper and lower sides; each arc is a
third of a circle, of radius g / sqrt 3, so that a ring is as wide as g / sqrt 3 and two rings
cross in each square. In a row the arcs make two long waves that twist round one another, and so
in a column; no wave has a corner. A square lies on the centre; from the edge, the first squares
touch the left and the upper edge. The waves of the row and the column nearest to the middle are
anchors, lengthwise first.

Source: from memory; drawings under this name differ, and no published construction was found.
"""

from math import pi
from typing import Final

from stitchpath.layouts import _waves
from stitchpath.layouts._layout import Ground, Layout, Strand, evenly
from stitchpath.model.quilt import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the twists down, then the twists across."""
    return _waves.lay_petals(ground, spec, pi / 3, edge=_waves.BETWEEN)


LAYOUT: Final = Layout(
    summary="chains of rings, across and down, linked in every square",
    make=make,
    keys={"spacing": "75 mm, the side of a square", "start": "centre"},
    repeat=_waves.whole_squares,
    density=evenly(5.0),
)
