"""Echo quilting: a drawn shape repeated inwards, and round what is kept clear, like ripples.

Construction: the border of each part of the area, less its margin, is moved inwards with
rounded corners by 1, 2, 3 ... times `spacing` until nothing is left; so lines run round a
keep-out outwards, until they meet those from the area's own border. Where more than 1.6
spacings would stay bare in the middle, one ring more lies halfway to it. The border itself is
not sewn: that is the layout `outline`. `angle` has no effect. Source: kathykwylie.com, "Echo
Quilting - Background Fill": evenly spaced echoes of a shape, which lose its points and run into
one another; offsets from shapely.
"""

from typing import Final

import shapely

from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.layouts._rings import depth_mm, offsets_from_edge, rings_inwards
from stitchpath.model.quilt import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return closed strands, each part's from its middle outwards, as layers are held."""
    strands: list[Strand] = []
    for part in shapely.get_parts(ground.region):
        offsets = offsets_from_edge(
            depth_mm(part, join="round"), spec.spacing, first_mm=spec.spacing
        )
        rings = rings_inwards(part, offsets, join="round")
        strands += [Strand(points=ring) for ring in reversed(rings)]
    return tuple(strands)


LAYOUT: Final = Layout(
    summary="the outline and what is kept clear, rippling inwards",
    make=make,
    keys={"spacing": "75 mm; 6 to 12 mm are usual"},
    turns=False,
    is_straight=True,
)
