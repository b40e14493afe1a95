"""Uneven triangles over an area: the scaffold of the layouts that wander.

Points strewn over a domain and on its border are triangulated, and more are added, until every
stretch of the border is an edge, no other edge joins two points of the border, and no triangle
is wide. Then every point inside has triangles all round it, and those points hang together,
through any neck.

Source: triangles from shapely; halving the border's stretches, from memory (Ruppert's
refinement, 1995).
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely

from stitchpath.geometry.points import Points
from stitchpath.layouts._strew import first_nodes, more_nodes
from stitchpath.layouts._triangles import (
    Flags,
    Indices,
    Triangles,
    codes_of,
    one_way_codes,
    triangulate,
)

_ROUNDS: Final = 24
"""Of refining; four are usual. What is left then only lies less evenly."""
_STEP: Final = 0.45  # of the pitch, between points of the border
_SHAKE: Final = 0.004
"""Of the pitch, or of a halved stretch: how far points of the border are moved, either way. The
triangulation loses edges among points that lie exactly in a row."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mesh:
    """Triangles by their half-edges: each side of each triangle, from its tail to its head.

    Attributes:
        points: Shape (n, 2), mm.
        is_rim: Which points have no triangles, or not all round, shape (n,).
        tail: Where each half-edge begins; all first sides, then all second, all third.
        head: Where it ends.
        apex: The third corner of its triangle.
        twin: The same side of the neighbouring triangle; -1 where there is none.
        turned: The half-edge from the same tail to the apex; -1 where there is none.
    """

    points: Points
    is_rim: Flags
    tail: Indices
    head: Indices
    apex: Indices
    twin: Indices
    turned: Indices

    def side_after(self, half_edge: Indices) -> Indices:
        """Return the sides of the same triangles that begin where half-edges end."""
        return np.asarray((half_edge + len(self.tail) // 3) % len(self.tail))


def make_mesh(domain: shapely.Polygon, *, pitch_mm: float, rng: np.random.Generator) -> Mesh:
    """Return triangles with edges of about a pitch over a domain.

    Args:
        domain: Valid, not empty.
        pitch_mm: Usual length of an edge, > 0.
        rng: For where the points lie.

    Cost: O(n log n) for n = area / pitch^2 + border / pitch points.
    """
    domain = _shaken(shapely.segmentize(domain, _STEP * pitch_mm), _SHAKE * pitch_mm, rng)
    shapely.prepare(domain)
    border, stretches = _border(domain)
    nodes = first_nodes(domain, pitch_mm, rng)
    triangles = triangulate(border, nodes, domain)
    for _ in range(_ROUNDS):
        missing = ~np.isin(codes_of(stretches), codes_of(triangles.sides))
        if missing.any():
            border, stretches = _halved(border, stretches, missing, rng)
        else:
            added = more_nodes(triangles, domain, pitch_mm)
            if not len(added):
                break
            nodes = np.concatenate([nodes, added])
        triangles = triangulate(border, nodes, domain)
    return _mesh(triangles)


def _shaken(
    domain: shapely.Polygon, reach_mm: float, rng: np.random.Generator
) -> shapely.Polygon:
    """Return a domain whose corners are moved a little, so that no three lie in a row."""
    moved = []
    for ring in (domain.exterior, *domain.interiors):
        points = shapely.get_coordinates(ring)[:-1]
        moved.append(points + rng.uniform(-reach_mm, reach_mm, points.shape))
    shaken = shapely.Polygon(moved[0], moved[1:])
    return shaken if shaken.is_valid else domain


def _border(domain: shapely.Polygon) -> tuple[Points, Indices]:
    """Return the border's points, and the pairs of them that are joined."""
    rings = [shapely.get_coordinates(ring) for ring in (domain.exterior, *domain.interiors)]
    ends = np.concatenate([np.stack([ring[:-1], ring[1:]], axis=1) for ring in rings])
    points, index = np.unique(ends.reshape(-1, 2), axis=0, return_inverse=True)
    return points, index.reshape(-1, 2)


def _halved(
    border: Points, stretches: Indices, missing: Flags, rng: np.random.Generator
) -> tuple[Points, Indices]:
    """Return the border with the missing stretches halved, a little off their middles."""
    long = stretches[missing]
    one, other = border[long[:, 0]], border[long[:, 1]]
    off = rng.uniform(-_SHAKE, _SHAKE, len(long))[:, None] * (other - one)[:, ::-1] * (1, -1)
    middle = len(border) + np.arange(len(long))
    halves = [np.column_stack([long[:, 0], middle]), np.column_stack([middle, long[:, 1]])]
    points = np.concatenate([border, (one + other) / 2 + off])
    return points, np.concatenate([stretches[~missing], *halves])


def _mesh(triangles: Triangles) -> Mesh:
    tail, head = triangles.sides.T
    apex = triangles.apexes
    codes = one_way_codes(tail, head)
    order = np.argsort(codes)

    def find(wanted: Indices) -> Indices:
        at = np.searchsorted(codes, wanted, sorter=order).clip(max=len(order) - 1)
        return np.where(codes[order[at]] == wanted, order[at], -1)

    twin = find(one_way_codes(head, tail))
    is_rim = np.ones(len(triangles.points), np.bool_)
    is_rim[tail] = False
    is_rim[tail[twin < 0]] = True
    is_rim[head[twin < 0]] = True
    return Mesh(
        points=triangles.points,
        is_rim=is_rim,
        tail=tail,
        head=head,
        apex=apex,
        twin=twin,
        turned=find(one_way_codes(tail, apex)),
    )
