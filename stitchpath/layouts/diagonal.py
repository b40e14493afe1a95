"""Diagonal: a line through two opposite corners, and lines left and right of it.

Construction: the direction is that of the frame's diagonal, from the top left corner to the
bottom right one (`angle` 0) or from the bottom left to the top right one (`angle` 90); lines
are `spacing` apart, measured square to them, from the diagonal or from the outermost corner.
The line nearest to the middle is the anchor. Source: elementary.
"""

from math import atan2, degrees
from typing import Final

from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.layouts.parallel import family_strands
from stitchpath.model.quilt import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return strands along one of the frame's two diagonals."""
    left, top, right, bottom = ground.frame
    slope = degrees(atan2(bottom - top, right - left))
    rising = spec.angle % 180 == 90  # noqa: PLR2004 - a right angle
    return family_strands(ground, spec, angle_deg=-slope if rising else slope)


LAYOUT: Final = Layout(
    summary="lines from corner to corner and beside it",
    make=make,
    keys={"spacing": "75 mm", "start": "centre", "angle": "0; 90 takes the other two corners"},
    turns=False,
    angles=(0.0, 90.0),
    is_straight=True,
)
