"""Delaunay triangles over a domain, by indices into their points."""

from dataclasses import dataclass
from typing import Final, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import SAME_POINT_MM

Indices: TypeAlias = NDArray[np.intp]
Flags: TypeAlias = NDArray[np.bool_]

_FRAME: Final = 3 * np.array([[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]])
"""Corners of a frame far outside, in sizes of the domain, so that no border is a hull."""

_BITS: Final = 31  # of a code for one of two points


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Triangles:
    """Triangles over a domain.

    Attributes:
        points: Those on the domain's border first, shape (n, 2), mm.
        on_border: How many lie on the border.
        corners: Three indices for each triangle, all in one sense, shape (m, 3).
    """

    points: Points
    on_border: int
    corners: Indices

    @property
    def sides(self) -> Indices:
        """Both ends of each side, shape (3 m, 2): all first sides, all second, all third."""
        return np.concatenate([self.corners[:, [at, (at + 1) % 3]] for at in range(3)])

    @property
    def apexes(self) -> Indices:
        """The third corner beside each side, shape (3 m,)."""
        return np.roll(self.corners, 1, axis=1).T.ravel()


def triangulate(border: Points, nodes: Points, domain: shapely.Polygon) -> Triangles:
    """Return the Delaunay triangles of points, as far as they lie in a domain.

    Args:
        border: Points on the domain's border, shape (n, 2), mm.
        nodes: Points inside, shape (k, 2).
        domain: Prepared.
    """
    points = np.concatenate([border, nodes])
    low, high = border.min(axis=0), border.max(axis=0)
    framed = np.concatenate([points, (low + high) / 2 + (high - low).max() * _FRAME])
    found = shapely.delaunay_triangles(shapely.multipoints(framed))
    places = shapely.get_coordinates(found).reshape(-1, 4, 2)[:, :3]
    keys = framed[:, 0] + 1j * framed[:, 1]
    order = np.argsort(keys)
    at = np.searchsorted(keys[order], places[..., 0] + 1j * places[..., 1])
    corners = np.asarray(order[at])
    is_inside = np.asarray(shapely.contains_xy(domain, places.mean(axis=1)))
    is_inside &= (corners < len(points)).all(axis=1)
    by_border = np.flatnonzero((corners < len(border)).all(axis=1))
    is_inside[by_border[_is_flat(places[by_border])]] = False
    return Triangles(points=points, on_border=len(border), corners=corners[is_inside])


def _is_flat(places: NDArray[np.float64]) -> Flags:
    """Return which triangles are three points in a row, as on a straight border."""
    sides = np.roll(places, -1, axis=1) - places
    longest = np.hypot(sides[..., 0], sides[..., 1]).max(axis=1)
    twice = 2 * np.asarray(shapely.area(shapely.polygons(places)))
    return np.asarray(twice <= longest * SAME_POINT_MM)


def codes_of(pairs: Indices) -> Indices:
    """Return one number for each pair of points, whichever comes first."""
    return one_way_codes(pairs.min(axis=1), pairs.max(axis=1))


def one_way_codes(tail: Indices, head: Indices) -> Indices:
    """Return one number for each way from one point to another; there are fewer than 2^31."""
    return np.asarray((tail << _BITS) + head)


def circle_middles(triangles: Triangles) -> tuple[Points, NDArray[np.float64]]:
    """Return the middle and the radius of each triangle's circle, not finite for a flat one."""
    first, second, third = (triangles.points[triangles.corners[:, at]] for at in range(3))
    u, v = second - first, third - first
    square_u, square_v = (u**2).sum(axis=1), (v**2).sum(axis=1)
    twice = 2 * (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])
    with np.errstate(divide="ignore", invalid="ignore"):
        x = (v[:, 1] * square_u - u[:, 1] * square_v) / twice
        y = (u[:, 0] * square_v - v[:, 0] * square_u) / twice
    return first + np.column_stack([x, y]), np.hypot(x, y)
