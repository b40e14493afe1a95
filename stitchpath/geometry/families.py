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


def extent_across(
    region: shapely.Polygon | shapely.MultiPolygon, angle_deg: float
) -> tuple[float, float]:
    """Return how far a region reaches along the normal of a direction, its low and high end.

    Example:
        >>> extent_across(shapely.box(0, 0, 30, 20), 90)
        (0.0, 30.0)
    """
    offsets = shapely.get_coordinates(region) @ normal_vector(angle_deg)
    return float(offsets.min()), float(offsets.max())


def normal_vector(angle_deg: float) -> NDArray[np.float64]:
    """Return the normal of a direction, its larger part to the right or down."""
    across = unit_vector(angle_deg + 90)
    return -across if across[np.argmax(np.abs(across))] < 0 else across


def family_at(
    region: shapely.Polygon | shapely.MultiPolygon,
    at: NDArray[np.float64],
    *,
    angle_deg: float,
    centre: tuple[float, float],
) -> Family:
    """Return those lines of one direction that meet a region.

    Args:
        region: Where lines are wanted; not empty.
        at: Where each line lies along `normal_vector(angle_deg)`, shape (n,), mm, ascending.
        angle_deg: The lines' direction; 0 runs to the right, 90 down.
        centre: To which the middle line is nearest.

    Returns:
        Lines in the order of `at`; those that only touch the region are among them.

    Cost: O(vertices + lines).
    """
    along, across = unit_vector(angle_deg), normal_vector(angle_deg)
    low, high = extent_across(region, angle_deg)
    meets = (at >= low - SAME_POINT_MM) & (at <= high + SAME_POINT_MM)
    at = np.clip(at[meets], low, high)
    reach = shapely.get_coordinates(region) @ along
    ends = np.stack(
        [np.outer(at, across) + along * side for side in (reach.min() - 1, reach.max() + 1)],
        axis=1,
    )
    middle = int(np.argmin(np.abs(at - np.dot(centre, across)))) if len(at) else -1
    return Family(ends=ends, middle=middle)


def parallel_family(
    region: shapely.Polygon | shapely.MultiPolygon,
    *,
    angle_deg: float,
    spacing_mm: float,
    centre: tuple[float, float],
    start: Literal["centre", "edge"],
    through: tuple[float, float] | None = None,
) -> Family:
    """Return the lines of one direction, evenly spaced, that meet a region.

    Args:
        region: Where lines are wanted; not empty.
        angle_deg: The lines' direction; 0 runs to the right, 90 down.
        spacing_mm: Distance between neighbours, > 0.
        centre: To which the middle line is nearest.
        start: Measure from the centre, or from the region's edge (its left or upper one).
        through: Another point than the centre that a line runs through, where `start` is
            `centre`.

    Returns:
        Lines in the order of their distance along the normal; those that only touch the region
        are among them.

    Cost: O(vertices + lines).
    """
    low, high = extent_across(region, angle_deg)
    if start == "centre":
        origin = float(np.dot(centre if through is None else through, normal_vector(angle_deg)))
    else:
        origin = low
    first = np.ceil((low - origin - SAME_POINT_MM) / spacing_mm)
    last = np.floor((high - origin + SAME_POINT_MM) / spacing_mm)
    at = origin + np.arange(first, last + 1) * spacing_mm
    return family_at(region, at, angle_deg=angle_deg, centre=centre)
