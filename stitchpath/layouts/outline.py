"""Outline: once along the border of the area, and round whatever is kept clear in it.

Construction: the border of the area less its `margin`, each ring a closed line. `angle` has no
effect. Source: elementary.
"""

from typing import Final

from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.layouts._rings import region_rings
from stitchpath.model.quilt import Quilting


def make(ground: Ground, _: Quilting) -> tuple[Strand, ...]:
    """Return the region's rings."""
    return tuple(Strand(points=ring) for ring in region_rings(ground.region))


LAYOUT: Final = Layout(
    summary="one line along the border of the area, inside its margin",
    make=make,
    turns=False,
)
