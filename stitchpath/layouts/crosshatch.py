"""Crosshatch: two families of parallel lines that cross at a right angle.

Construction: straight lines down the length and across the width, each `spacing` apart, turned
by `angle`; fitted, whole squares fill the area. The line of each family nearest to the middle
is an anchor, the lengthwise one first. Source: elementary; the order of the anchors is common
practice, no source.
"""

from typing import Final

from stitchpath.layouts._layout import Ground, Layout, Strand, evenly
from stitchpath.layouts._waves import whole_squares
from stitchpath.layouts.parallel import family_strands, fitted_origin
from stitchpath.model.quilt import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return both families, the lengthwise one first."""
    return tuple(
        strand
        for turn in (90.0, 0.0)
        for strand in family_strands(
            ground, spec, angle_deg=turn, through=fitted_origin(ground, spec)
        )
    )


LAYOUT: Final = Layout(
    summary="squares: two sets of straight lines that cross",
    make=make,
    keys={"spacing": "75 mm", "start": "centre", "angle": "0; 45 stands them on a corner"},
    repeat=whole_squares,
    density=evenly(2.0),
    is_straight=True,
)
