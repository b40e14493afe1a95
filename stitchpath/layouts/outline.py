"""Outline: once along the border of the area, at its margin, and round its holes.

Construction: the border of the area inside its margin. Source: elementary.
"""

from typing import Final

from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.layouts._rings import inner_rings
from stitchpath.model.project import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the border's rings."""
    del spec
    return tuple(Strand(points=ring) for ring in inner_rings(ground.region, 0.0, join="mitre"))


LAYOUT: Final = Layout(summary="one line along the border of the area", make=make)
