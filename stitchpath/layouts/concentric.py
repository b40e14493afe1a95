"""Concentric lines: the outline of the area echoed inwards with square corners.

Construction: closed lines at 1, 2, 3, ... times `spacing` inside the area's border, by
offsetting it with mitred corners, until nothing is left; of a rectangle they are rectangles,
round a hole they echo the hole. The border itself is not sewn: see `outline`. Source:
elementary.
"""

from typing import Final

from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.layouts._rings import echoes
from stitchpath.model.project import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the rings, innermost first."""
    rings = echoes(ground.region, spec.spacing, join="mitre")
    return tuple(Strand(points=ring) for ring in reversed(rings))


LAYOUT: Final = Layout(
    summary="the area's outline again and again inside itself, with square corners",
    make=make,
    keys={"spacing": "75 mm"},
)
