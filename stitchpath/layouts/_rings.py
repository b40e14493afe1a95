"""Rings: the border of a region, moved inwards again and again."""

from math import acos, ceil, pi
from typing import Final, Literal, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.geometry.tolerance import FLATNESS_MM, SAME_POINT_MM
from stitchpath.layouts._layout import Region

JoinStyle: TypeAlias = Literal["mitre", "round"]

_EXACT: Final = FLATNESS_MM / 2
_BARE: Final = 0.8
"""Of a spacing, between the last ring and the middle: more, and a gap of twice that is left."""


def region_rings(region: Region) -> list[Points]:
    """Return the rings of a region's border, each ending on its first point."""
    return [
        close_ring(shapely.get_coordinates(ring))
        for part in shapely.get_parts(region)
        for ring in (part.exterior, *part.interiors)
    ]


def close_ring(points: Points, *, least_mm: float = SAME_POINT_MM) -> Points:
    """Return a line that ends on its first point, without steps of no length.

    Args:
        points: In order, shape (n, 2), mm; the first one may be there again at the end.
        least_mm: Points whose step to the next is no longer are left out.

    Example:
        >>> close_ring(np.array([[0, 0], [4, 0], [4, 0], [0, 3]])).tolist()
        [[0, 0], [4, 0], [0, 3], [0, 0]]
    """
    steps = segment_lengths(np.concatenate([points, points[:1]]))
    kept = points[steps > least_mm]
    return np.concatenate([kept, kept[:1]])


def rings_inwards(
    region: Region, offsets_mm: NDArray[np.float64], *, join: JoinStyle
) -> list[Points]:
    """Return the rings of a region's border at distances inside it.

    Args:
        region: Valid.
        offsets_mm: Ascending, >= 0.
        join: How a ring goes round corners that point into the region: to a point, unless that
            is sharper than 23 degrees, or in an arc.

    Returns:
        Rings in the order of the distances; none where nothing is left, or less than a
        hundredth of a millimetre.
    """
    rings: list[Points] = []
    for offset in offsets_mm.tolist():
        inner = region if offset == 0 else _moved(region, offset, join)
        parts = [part for part in shapely.get_parts(inner) if _is_wide(part)]
        if parts:
            rings += region_rings(shapely.MultiPolygon(parts))
    return rings


def _moved(region: Region, offset_mm: float, join: JoinStyle) -> Region:
    if join == "mitre":
        return region.buffer(-offset_mm, join_style="mitre")
    step = 2 * acos(max(0.0, 1 - FLATNESS_MM / offset_mm))
    return region.buffer(-offset_mm, quad_segs=ceil(pi / 2 / step))


def _is_wide(part: shapely.Polygon) -> bool:
    return part.area > part.length * FLATNESS_MM


def depth_mm(part: shapely.Polygon, *, join: JoinStyle) -> float:
    """Return how far a border can be moved inwards before nothing is left, to 0.01 mm.

    With round joins that is the distance to the deepest place; with mitred ones less, where a
    corner points into the region, as in the corners of a frame.
    """
    deepest = float(shapely.length(shapely.maximum_inscribed_circle(part, tolerance=_EXACT)))
    if join == "round":
        return deepest
    low, high = 0.0, deepest + _EXACT
    while high - low > _EXACT:
        middle = (low + high) / 2
        if _moved(part, middle, join).is_empty:
            high = middle
        else:
            low = middle
    return (low + high) / 2


def offsets_from_edge(depth: float, spacing_mm: float, *, first_mm: float) -> Points:
    """Return distances a spacing apart; one more halfway, where the middle stays bare.

    Example:
        >>> offsets_from_edge(100, 30, first_mm=0.0).tolist()
        [0.0, 30.0, 60.0, 90.0]
        >>> offsets_from_edge(118, 30, first_mm=0.0).tolist()
        [0.0, 30.0, 60.0, 90.0, 104.0]
    """
    offsets = np.arange(first_mm, depth, spacing_mm)
    last = offsets[-1] if len(offsets) else 0.0
    if _BARE * spacing_mm < depth - last:
        offsets = np.append(offsets, (last + depth) / 2)
    return offsets
