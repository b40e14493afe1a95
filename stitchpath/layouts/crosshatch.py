"""Crosshatch: two families of parallel lines that cross at a right angle.

Construction: straight lines at `angle` + 90 (down the length) and at `angle` (across the
width), each `spacing` apart. The middle line of each family is an anchor, the lengthwise one
first.
Source: elementary; the order of the anchors is common practice, no source.
"""

from typing import Final

from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.layouts.parallel import family_strands
from stitchpath.model.project import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return both families, the lengthwise one first."""
    return tuple(
        strand
        for turn in (90.0, 0.0)
        for strand in family_strands(ground, spec, angle_deg=spec.angle + turn)
    )


LAYOUT: Final = Layout(
    summary="squares: two sets of straight lines that cross; angle 45 stands them on a corner",
    make=make,
)
