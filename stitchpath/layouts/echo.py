"""Echo quilting: the outline of a drawn shape echoed inwards, round where it bends.

Construction: closed lines at 1, 2, 3, ... times `spacing` inside the area's border, each at the
same distance from it everywhere, so corners that point inwards become arcs. Source: elementary;
echoing a shape's outline is common practice, no source.
"""

from typing import Final

from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.layouts._rings import echoes
from stitchpath.model.project import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the rings, innermost first."""
    rings = echoes(ground.region, spec.spacing, join="round")
    return tuple(Strand(points=ring) for ring in reversed(rings))


LAYOUT: Final = Layout(
    summary="the area's outline again and again inside itself, the same distance everywhere",
    make=make,
    keys={"spacing": "75 mm"},
)
