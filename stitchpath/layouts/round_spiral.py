"""Round spiral: one line from the middle outwards, its turns evenly apart.

Construction: the spiral of Archimedes, r = s t / 2 pi with s the spacing and t the angle, from
the middle of the frame until it has passed the area's farthest corner. Source: elementary.
"""

from math import acos, ceil, tau
from typing import Final

import numpy as np
import shapely

from stitchpath.geometry.tolerance import FLATNESS_MM
from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.model.quilt import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the one strand, from the middle outwards."""
    corners = shapely.get_coordinates(ground.region) - ground.centre
    reach = float(np.hypot(corners[:, 0], corners[:, 1]).max()) + spec.spacing
    step = 2 * acos(1 - FLATNESS_MM / reach)  # the widest turn needs the finest steps
    last = tau * reach / spec.spacing
    angle = np.linspace(0.0, last, ceil(last / step))
    radius = spec.spacing * angle / tau
    points = np.column_stack([radius * np.cos(angle), radius * np.sin(angle)])
    return (Strand(points=points + ground.centre),)


LAYOUT: Final = Layout(
    summary="one round line from the middle, its turns evenly apart",
    make=make,
    keys={"spacing": "75 mm"},
)
