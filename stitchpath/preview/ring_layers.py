"""The hoop's ring, as it lies round its field."""

from collections.abc import Sequence
from functools import lru_cache

import numpy as np
import shapely

from stitchpath.geometry.points import Points, frozen_points
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.model.hooping import Hooping
from stitchpath.model.machine import Machine
from stitchpath.preview import strokes
from stitchpath.preview.look import Look
from stitchpath.preview.polylines import Polylines
from stitchpath.preview.svg import Drawing, add_layer

_QUARTER = 8
"""So many lines round a quarter of a circle."""


def ring_edges(hooping: Hooping, machine: Machine) -> tuple[Points, ...]:
    """Return the ring's outer and inner edge in the field's frame, to be closed, mm.

    They run against each other, so that what is filled lies between them. There are none where
    nobody knows of a ring, or it is no larger than the field.
    """
    ring = hooping.ring
    if ring is None or min(np.subtract(ring, hooping.field)) < GRID_MM:
        return ()
    corner = machine.ring_corner
    outer = _rounded(ring, corner + machine.ring_wall if corner else 0.0)
    opening = machine.opening_of(ring)
    return (outer, _rounded(opening, corner)[::-1]) if min(opening) > 0 else (outer,)


def draw_ring(drawing: Drawing, edges: Sequence[Points], look: Look) -> None:
    """Add the ring; no layer where there is none."""
    if edges:
        layer = add_layer(drawing, "ring", "the hoop's ring, which the foot must not meet")
        strokes.draw_ring(layer, Polylines.of(edges), look)


@lru_cache(maxsize=16)
def _rounded(size: tuple[float, float], corner_mm: float) -> Points:
    """Return a rectangle round 0, 0 with round corners, without its first point again."""
    half = np.array(size) / 2
    corner = min(corner_mm, float(half.min()))
    inner = shapely.box(*(corner - half), *(half - corner))
    shape = inner if corner == 0 else shapely.buffer(inner, corner, quad_segs=_QUARTER)
    return frozen_points(shapely.get_coordinates(shapely.orient_polygons(shape))[:-1])
