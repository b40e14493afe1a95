"""Uneven triangles over an area: the scaffold of the layouts that wander.

Points are strewn over a domain: on its border, in a row inside it, and on a jittered lattice of
equilateral triangles. Their Delaunay triangulation is refined until every stretch of the border
is an edge, no other edge joins two points of the border, and no triangle is wide. Then every
point inside has triangles all round it, and those points hang together, through any neck.

A *half-edge* is one side of a triangle, from its `tail` to its `head`; its `apex` is the
triangle's third corner. Lengths in capitals are shares of the pitch.

Source: triangles from shapely; halving the border's stretches and putting points in the middle
of wide triangles' circles, from memory (Ruppert's refinement, 1995); the shares were measured.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.paths import points_at
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import SAME_POINT_MM

Indices = NDArray[np.intp]

_ROUNDS: Final = 24
"""Of refining; four are usual. What is not refined after that only lies less evenly."""
_STEP: Final = 0.45  # between points of the border
_RIM: Final = 0.41  # from the border to the row inside it
_ROW: Final = 0.85  # between the points of that row
_FAR: Final = 0.8  # the longest edge to the border
_CLEAR: Final = 0.7  # from that row to the lattice
_SHAKE_BORDER: Final = 0.004  # of the border's points, either way
_ASKEW: Final = 0.004  # of a stretch, either way, where it is halved
_SHAKE: Final = 0.04  # of its points, either way, so that no three lie in a row
_JITTER: Final = 0.17  # of the lattice, either way
_WIDE: Final = 0.65  # the widest radius of a triangle's circle; equilateral it is 0.577
_APART: Final = 0.5  # between added points
_ASIDE: Final = 0.1  # how far off a chord its middle is put, so that no triangle is flat
_FRAME: Final = 3 * np.array([[-1.0, -1.0], [1.0, -1.0], [1.0, 1.0], [-1.0, 1.0]])
"""Corners of a frame far outside, in sizes of the domain, so that no border is a hull."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Mesh:
    """Triangles over a domain, as half-edges: all first sides, then all second, all third.

    Attributes:
        points: Shape (n, 2), mm.
        is_rim: Which points have no triangles, or not all round, shape (n,).
        tail: Where each half-edge begins.
        head: Where it ends.
        apex: The third corner of its triangle.
        twin: The same side of the neighbouring triangle; -1 where there is none.
        turned: The half-edge from the same tail to the apex; -1 where there is none.
    """

    points: Points
    is_rim: NDArray[np.bool_]
    tail: Indices
    head: Indices
    apex: Indices
    twin: Indices
    turned: Indices


def make_mesh(domain: shapely.Polygon, *, pitch_mm: float, rng: np.random.Generator) -> Mesh:
    """Return triangles with edges of about a pitch over a domain.

    Args:
        domain: Valid, not empty.
        pitch_mm: Usual length of an edge, > 0.
        rng: For the jitter.

    Cost: O(n log n) for n = area / pitch^2 + border / pitch points.
    """
    domain = _shaken(shapely.segmentize(domain, _STEP * pitch_mm), pitch_mm, rng)
    shapely.prepare(domain)
    border, stretches = _border(domain)
    nodes = _first_nodes(domain, pitch_mm, rng)
    points, triangles = _triangulated(border, nodes, domain)
    for _ in range(_ROUNDS):
        missing = ~np.isin(_codes(stretches), _codes(_sides(triangles)))
        if missing.any():
            border, stretches = _halved(border, stretches, missing, rng)
        else:
            added = _more_nodes(points, triangles, len(border), domain, pitch_mm)
            if not len(added):
                break
            nodes = np.concatenate([nodes, added])
        points, triangles = _triangulated(border, nodes, domain)
    return _mesh(points, triangles)


def _shaken(
    domain: shapely.Polygon, pitch_mm: float, rng: np.random.Generator
) -> shapely.Polygon:
    """Return a domain whose corners are moved a little, so that no three lie in a row."""
    rings = [
        shapely.get_coordinates(ring)[:-1] for ring in (domain.exterior, *domain.interiors)
    ]
    reach = _SHAKE_BORDER * pitch_mm
    moved = [ring + rng.uniform(-reach, reach, ring.shape) for ring in rings]
    shaken = shapely.Polygon(moved[0], moved[1:])
    return shaken if shaken.is_valid else domain


def _border(domain: shapely.Polygon) -> tuple[Points, Indices]:
    """Return the border's points, and the pairs of them that are joined."""
    rings = [shapely.get_coordinates(ring) for ring in (domain.exterior, *domain.interiors)]
    ends = np.concatenate([np.stack([ring[:-1], ring[1:]], axis=1) for ring in rings])
    points, index = np.unique(ends.reshape(-1, 2), axis=0, return_inverse=True)
    return points, index.reshape(-1, 2)


def _first_nodes(domain: shapely.Polygon, pitch_mm: float, rng: np.random.Generator) -> Points:
    """Return a row of points inside the border, and a jittered lattice inside that."""
    rim = domain.buffer(-_RIM * pitch_mm, quad_segs=4).boundary
    rows = [_spaced(ring, _ROW * pitch_mm) for ring in shapely.get_parts(rim)]
    rows = [row + rng.uniform(-_SHAKE, _SHAKE, row.shape) * pitch_mm for row in rows]
    inner = domain.buffer(-(_RIM + _CLEAR) * pitch_mm, quad_segs=4)
    if not inner.is_empty:
        lattice = _lattice(inner.bounds, pitch_mm)
        lattice += rng.uniform(-_JITTER, _JITTER, lattice.shape) * pitch_mm
        shapely.prepare(inner)
        rows.append(lattice[shapely.contains_xy(inner, lattice)])
    return np.concatenate([np.empty((0, 2)), *rows])


def _spaced(ring: shapely.LineString, pitch_mm: float) -> Points:
    """Return points along a ring, about a pitch apart, three at the least."""
    count = max(3, round(ring.length / pitch_mm))
    along = np.arange(count) / count * ring.length
    return points_at(shapely.get_coordinates(ring), along)


def _lattice(box: tuple[float, float, float, float], pitch_mm: float) -> Points:
    """Return the corners of equilateral triangles that cover a box."""
    left, top, right, bottom = box
    x, y = np.meshgrid(
        np.arange(left, right + pitch_mm, pitch_mm),
        np.arange(top, bottom + pitch_mm, pitch_mm * np.sqrt(3) / 2),
    )
    x[1::2] -= pitch_mm / 2
    return np.column_stack([x.ravel(), y.ravel()])


def _triangulated(
    border: Points, nodes: Points, domain: shapely.Polygon
) -> tuple[Points, Indices]:
    """Return all points, and the corners of the triangles that lie in the domain."""
    points = np.concatenate([border, nodes])
    low, high = border.min(axis=0), border.max(axis=0)
    framed = np.concatenate([points, (low + high) / 2 + (high - low).max() * _FRAME])
    found = shapely.delaunay_triangles(shapely.multipoints(framed))
    corners = shapely.get_coordinates(found).reshape(-1, 4, 2)[:, :3]
    keys = framed[:, 0] + 1j * framed[:, 1]
    order = np.argsort(keys)
    at = np.searchsorted(keys[order], corners[..., 0] + 1j * corners[..., 1])
    triangles = order[at]
    in_row = np.asarray((triangles < len(border)).all(axis=1))
    in_row[in_row] = _is_flat(corners[in_row])
    is_inside = shapely.contains_xy(domain, corners.mean(axis=1))
    is_framed = (triangles >= len(points)).any(axis=1)
    return points, triangles[is_inside & ~in_row & ~is_framed]


def _is_flat(corners: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Return which triangles are three points in a row, as on a straight border."""
    sides = np.roll(corners, -1, axis=1) - corners
    longest = np.hypot(sides[..., 0], sides[..., 1]).max(axis=1)
    area = np.asarray(shapely.area(shapely.polygons(corners)))
    return np.asarray(2 * area <= longest * SAME_POINT_MM)


def _sides(triangles: Indices) -> Indices:
    """Return both ends of each side, shape (3 m, 2): all first sides, second, third."""
    return np.concatenate([triangles[:, [at, (at + 1) % 3]] for at in range(3)])


def _codes(pairs: Indices) -> Indices:
    """Return one number for each pair of points, whichever comes first; points < 2^31."""
    return np.asarray((pairs.min(axis=1) << 31) + pairs.max(axis=1))


def _halved(
    border: Points, stretches: Indices, missing: NDArray[np.bool_], rng: np.random.Generator
) -> tuple[Points, Indices]:
    """Return the border with the missing stretches halved, a little off their middles."""
    long = stretches[missing]
    middle = len(border) + np.arange(len(long))
    halves = [np.column_stack([long[:, 0], middle]), np.column_stack([middle, long[:, 1]])]
    one, other = border[long[:, 0]], border[long[:, 1]]
    off = rng.uniform(-_ASKEW, _ASKEW, len(long))[:, None] * (other - one)[:, ::-1] * (1, -1)
    points = np.concatenate([border, (one + other) / 2 + off])
    return points, np.concatenate([stretches[~missing], *halves])


def _more_nodes(
    points: Points,
    triangles: Indices,
    border_count: int,
    domain: shapely.Polygon,
    pitch_mm: float,
) -> Points:
    """Return points to add: beside chords, in wide triangles, and nearer to the border."""
    chords = _beside_chords(points, triangles, border_count)
    if len(points) == border_count and not len(chords):
        return shapely.get_coordinates(shapely.maximum_inscribed_circle(domain))[:1]
    wide = _wide_places(points[triangles], domain, pitch_mm)
    far = _far_places(points, triangles, border_count, pitch_mm)
    other = np.concatenate([wide, far])
    known = np.concatenate([points[border_count:], chords])
    return np.concatenate([chords, _apart(other, known, _APART * pitch_mm)])


def _apart(places: Points, others: Points, apart_mm: float) -> Points:
    """Return the places that are not near others, nor near an earlier one that is kept."""
    free = np.ones(len(places), np.bool_)
    if len(others):
        found = shapely.STRtree(_shapes(others)).query(
            _shapes(places), predicate="dwithin", distance=apart_mm
        )
        free[found[0]] = False
    places = places[free]
    spots = _shapes(places)
    late, early = shapely.STRtree(spots).query(spots, predicate="dwithin", distance=apart_mm)
    is_kept = [True] * len(places)
    for one, other in sorted(zip(late.tolist(), early.tolist(), strict=True)):
        is_kept[one] &= other >= one or not is_kept[other]
    return np.asarray(places[np.array(is_kept, np.bool_)])


def _shapes(points: Points) -> NDArray[np.object_]:
    return np.asarray(shapely.points(points))


def _beside_chords(points: Points, triangles: Indices, border_count: int) -> Points:
    """Return places by the middles of edges that join the border through the domain."""
    sides = _sides(triangles)
    at = np.flatnonzero((sides < border_count).all(axis=1))
    _, first, times = np.unique(_codes(sides[at]), return_index=True, return_counts=True)
    chords = at[first[times > 1]]
    middles = points[sides[chords]].mean(axis=1)
    apexes = points[np.roll(triangles, 1, axis=1).T.ravel()[chords]]
    return np.asarray(middles + _ASIDE * (apexes - middles))


def _far_places(
    points: Points, triangles: Indices, border_count: int, pitch_mm: float
) -> Points:
    """Return places near the border, on edges that lead too far from it."""
    sides = _sides(triangles)
    sides = sides[(sides[:, 0] < border_count) & (sides[:, 1] >= border_count)]
    way = points[sides[:, 1]] - points[sides[:, 0]]
    length = np.hypot(*way.T)
    far = length > _FAR * pitch_mm
    return np.asarray(points[sides[far, 0]] + _RIM * pitch_mm * way[far] / length[far, None])


def _wide_places(
    corners: NDArray[np.float64], domain: shapely.Polygon, pitch_mm: float
) -> Points:
    """Return middles of wide triangles' circles, one in each square of a pitch.

    No point lies in such a circle, so a new one in its middle is no nearer than that to any.
    """
    first = corners[:, 0]
    u, v = corners[:, 1] - first, corners[:, 2] - first
    square_u, square_v = (u**2).sum(axis=1), (v**2).sum(axis=1)
    twice = 2 * (u[:, 0] * v[:, 1] - u[:, 1] * v[:, 0])
    with np.errstate(divide="ignore", invalid="ignore"):  # a flat one has no circle
        x = (v[:, 1] * square_u - u[:, 1] * square_v) / twice
        y = (u[:, 0] * square_v - v[:, 0] * square_u) / twice
    middles = (first + np.column_stack([x, y]))[np.hypot(x, y) > _WIDE * pitch_mm]
    return np.asarray(middles[shapely.contains_xy(domain, middles)])


def _mesh(points: Points, triangles: Indices) -> Mesh:
    tail, head = _sides(triangles).T
    apex = np.roll(triangles, 1, axis=1).T.ravel()
    codes = (tail << 31) + head
    order = np.argsort(codes)

    def find(wanted: Indices) -> Indices:
        at = order[np.searchsorted(codes, wanted, sorter=order).clip(max=len(order) - 1)]
        return np.where(codes[at] == wanted, at, -1)

    twin = find((head << 31) + tail)
    is_rim = np.ones(len(points), np.bool_)
    is_rim[tail] = False
    is_rim[tail[twin < 0]] = True
    is_rim[head[twin < 0]] = True
    return Mesh(
        points=points,
        is_rim=is_rim,
        tail=tail,
        head=head,
        apex=apex,
        twin=twin,
        turned=find((tail << 31) + apex),
    )
