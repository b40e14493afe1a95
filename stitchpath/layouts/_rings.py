"""Rings that follow the border of a region at a distance inside it."""

from math import acos, ceil, pi
from typing import Literal

import numpy as np
import shapely

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import FLATNESS_MM
from stitchpath.layouts._layout import Region


def inner_rings(
    region: Region, distance_mm: float, *, join: Literal["mitre", "round"]
) -> list[Points]:
    """Return the closed lines at a distance inside a region's border, round holes too.

    Args:
        region: Valid, not empty.
        distance_mm: >= 0; at 0 the border itself.
        join: How corners that point inwards are passed: squarely, or on an arc round them.

    Returns:
        Rings of shape (n, 2) that end on their first point, outer ones before those round
        holes; none where the region is narrower.
    """
    inner = region
    if distance_mm > 0:
        inner = region.buffer(
            -distance_mm, join_style=join, quad_segs=_segments(distance_mm), mitre_limit=10
        )
    rings = [
        ring
        for part in shapely.get_parts(inner)
        if not part.is_empty
        for ring in (part.exterior, *part.interiors)
    ]
    return [np.asarray(shapely.get_coordinates(ring)) for ring in rings]


def echoes(
    region: Region, spacing_mm: float, *, join: Literal["mitre", "round"]
) -> list[Points]:
    """Return rings `spacing_mm` inside the border, and inside that, until nothing is left."""
    rings: list[Points] = []
    step = 1
    while inner := inner_rings(region, step * spacing_mm, join=join):
        rings += inner
        step += 1
    return rings


def _segments(radius_mm: float) -> int:
    """Return the chords of a quarter circle that keep within the flatness of curves."""
    step = 2 * acos(max(0.0, 1 - FLATNESS_MM / radius_mm))
    return max(4, ceil(pi / 2 / step))
