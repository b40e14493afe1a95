"""Families of parallel straight lines."""

from dataclasses import dataclass
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.tolerance import SAME_POINT_MM


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Family:
    """Parallel lines, from one side to the other.

    Attributes:
        ends: Both ends of each line, shape (n, 2, 2), mm; they reach past the region.
        middle: Index of the line nearest to the centre, or -1 where there is no line.
    """

    ends: NDArray[np.float64]
    middle: int


def unit_vector(angle_deg: float) -> NDArray[np.float64]:
    """Return the direction of an angle, x right and y down, exact at quarter turns."""
    quarter, rest = divmod(angle_deg % 360, 90)
    if rest == 0:  # an angle just below 0 is 360 after the modulo, so there are five quarters
        return np.array(((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4])
    return np.array([np.cos(np.radians(angle_deg)), np.sin(np.radians(angle_deg))])


def parallel_family(
    region: shapely.Polygon | shapely.MultiPolygon,
    *,
    angle_deg: float,
    spacing_mm: float,
    centre: tuple[float, float],
    start: Literal["centre", "edge"],
) -> Family:
    """Return the lines of one direction that meet a region.

    Args:
        region: Where lines are wanted; not empty.
        angle_deg: The lines' direction; 0 runs to the right, 90 down.
        spacing_mm: Distance between neighbours, > 0.
        centre: Which point a line runs through, where `start` is `centre`.
        start: Measure from the centre, or from the region's edge (its left or upper one).

    Returns:
        Lines in the order of their distance along the normal; those that only touch the region
        are among them.

    Cost: O(vertices + lines).
    """
    along = unit_vector(angle_deg)
    across = unit_vector(angle_deg + 90)
    if across[np.argmax(np.abs(across))] < 0:
        across = -across
    corners = shapely.get_coordinates(region)
    offsets = corners @ across
    low, high = offsets.min(), offsets.max()
    origin = float(np.dot(centre, across)) if start == "centre" else low
    first = np.ceil((low - origin - SAME_POINT_MM) / spacing_mm)
    last = np.floor((high - origin + SAME_POINT_MM) / spacing_mm)
    at = np.clip(origin + np.arange(first, last + 1) * spacing_mm, low, high)
    reach = corners @ along
    ends = np.stack(
        [np.outer(at, across) + along * (side) for side in (reach.min() - 1, reach.max() + 1)],
        axis=1,
    )
    middle = int(np.argmin(np.abs(at - np.dot(centre, across)))) if len(at) else -1
    return Family(ends=ends, middle=middle)
