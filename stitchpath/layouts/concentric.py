"""Concentric: the outline of the area, echoed inwards; squares within squares.

Construction: the border of each part of the area, less its margin, is moved inwards with mitred
corners by d0 + k `spacing` until nothing is left. From the centre, d0 leaves half a spacing
between the innermost ring and the deepest place, so that the rings lie evenly about the middle;
from the edge, d0 is 0: the first ring is the border itself, and where more than 1.6 spacings
would stay bare in the middle, one ring more lies halfway to it. `angle` has no effect. Source:
offsets from shapely; elementary.
"""

from typing import Final

import numpy as np
import shapely

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import FLATNESS_MM
from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.layouts._rings import depth_mm, offsets_from_edge, rings_inwards
from stitchpath.model.quilt import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return closed strands, each part's from its middle outwards, as layers are held."""
    strands: list[Strand] = []
    for part in shapely.get_parts(ground.region):
        rings = rings_inwards(part, _offsets(depth_mm(part, join="mitre"), spec), join="mitre")
        strands += [Strand(points=ring) for ring in reversed(rings)]
    return tuple(strands)


def _offsets(depth: float, spec: Quilting) -> Points:
    if spec.start == "edge":
        return offsets_from_edge(depth, spec.spacing, first_mm=0.0)
    return np.arange(depth - spec.spacing / 2, FLATNESS_MM, -spec.spacing)[::-1]


LAYOUT: Final = Layout(
    summary="the area's outline, repeated inwards with sharp corners",
    make=make,
    keys={"spacing": "75 mm", "start": "centre"},
    turns=False,
    is_straight=True,
)
