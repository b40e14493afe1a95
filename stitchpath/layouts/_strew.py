"""Points strewn over a domain, so that triangles between them come out even.

First a row of points inside the border, and a jittered lattice of equilateral triangles inside
that; then more where triangles are wide, where an edge to the border is long, and beside edges
that join two points of the border through the domain. Numbers are shares of the pitch, the
usual length of an edge.

Source: points in the middle of wide triangles' circles, from memory (Ruppert's refinement,
1995); the shares were found by measuring the gaps that wandering lines leave.
"""

from typing import Final

import numpy as np
import shapely

from stitchpath.geometry.points import Points
from stitchpath.layouts._triangles import Flags, Triangles, circle_middles, codes_of

_RIM: Final = 0.41  # from the border to the row inside it
_ROW: Final = 0.85  # between the points of that row
_CLEAR: Final = 0.7  # from that row to the lattice
_JITTER: Final = 0.17  # of the lattice, either way
_SHAKE: Final = 0.04  # of the row's points, either way, so that no three lie in a row
_WIDE: Final = 0.65  # the widest radius of a triangle's circle; equilateral it is 0.577
_FAR: Final = 0.75  # the longest edge from the border to a point inside
_FAR_APART: Final = 0.35  # from a point added on such an edge to any other
_APART: Final = 0.5  # from any other point that is added to one there was
_ASIDE: Final = 0.1  # of a triangle's height, from a chord's middle to a point beside it


def first_nodes(domain: shapely.Polygon, pitch_mm: float, rng: np.random.Generator) -> Points:
    """Return a row of points inside the border, and a jittered lattice inside that."""
    rim = domain.buffer(-_RIM * pitch_mm, quad_segs=4).boundary
    rows = [_row(ring, pitch_mm, rng) for ring in shapely.get_parts(rim)]
    inner = domain.buffer(-(_RIM + _CLEAR) * pitch_mm, quad_segs=4)
    if not inner.is_empty:
        lattice = _lattice(inner.bounds, pitch_mm)
        lattice += rng.uniform(-_JITTER, _JITTER, lattice.shape) * pitch_mm
        shapely.prepare(inner)
        rows.append(lattice[shapely.contains_xy(inner, lattice)])
    return np.concatenate([np.empty((0, 2)), *rows])


def _row(ring: shapely.LineString, pitch_mm: float, rng: np.random.Generator) -> Points:
    """Return points by a ring, evenly spaced but for a little, three at the least."""
    count = max(3, round(ring.length / _ROW / pitch_mm))
    along = np.arange(count) / count * ring.length
    points = shapely.get_coordinates(shapely.line_interpolate_point(ring, along))
    return points + rng.uniform(-_SHAKE, _SHAKE, points.shape) * pitch_mm


def _lattice(box: tuple[float, float, float, float], pitch_mm: float) -> Points:
    """Return the corners of equilateral triangles that cover a box."""
    left, top, right, bottom = box
    x, y = np.meshgrid(
        np.arange(left, right + pitch_mm, pitch_mm),
        np.arange(top, bottom + pitch_mm, pitch_mm * np.sqrt(3) / 2),
    )
    x[1::2] -= pitch_mm / 2
    return np.column_stack([x.ravel(), y.ravel()])


def more_nodes(triangles: Triangles, domain: shapely.Polygon, pitch_mm: float) -> Points:
    """Return points to be added inside; none where triangles are as they should be."""
    chords = _beside_chords(triangles)
    nodes = triangles.points[triangles.on_border :]
    if not len(nodes) + len(chords):
        return shapely.get_coordinates(shapely.maximum_inscribed_circle(domain))[:1]
    middles, radii = circle_middles(triangles)
    middles = middles[radii > _WIDE * pitch_mm]
    wide = middles[shapely.contains_xy(domain, middles)]
    nodes = np.concatenate([nodes, chords])
    far = _kept_apart(_on_far_edges(triangles, pitch_mm), nodes, _FAR_APART * pitch_mm)
    wide = _kept_apart(wide, np.concatenate([nodes, far]), _APART * pitch_mm)
    return np.concatenate([chords, far, wide])


def _beside_chords(triangles: Triangles) -> Points:
    """Return places by the middles of edges that join the border through the domain.

    They lie a little inside a triangle beside the edge: on it, flat triangles could be left.
    """
    sides = triangles.sides
    at = np.flatnonzero((sides < triangles.on_border).all(axis=1))
    _, first, times = np.unique(codes_of(sides[at]), return_index=True, return_counts=True)
    chords = at[first[times > 1]]
    middles = triangles.points[sides[chords]].mean(axis=1)
    apexes = triangles.points[triangles.apexes[chords]]
    return np.asarray(middles + _ASIDE * (apexes - middles))


def _on_far_edges(triangles: Triangles, pitch_mm: float) -> Points:
    """Return places on long edges from the border, as far from it as the row inside it."""
    sides = triangles.sides
    from_border = (sides < triangles.on_border) @ [2, 1] == 2  # noqa: PLR2004 - tail but not head
    tail, head = triangles.points[sides[from_border].T]
    length = np.hypot(*(head - tail).T)
    share = (_RIM * pitch_mm / length)[:, None]
    return np.asarray((tail + share * (head - tail))[length > _FAR * pitch_mm])


def _kept_apart(places: Points, others: Points, apart_mm: float) -> Points:
    """Return the places that are not near others, nor near an earlier one that is kept."""
    spots = np.asarray(shapely.points(places), np.object_)
    fixed = shapely.STRtree(np.asarray(shapely.points(others), np.object_))
    near, _ = fixed.query(spots, predicate="dwithin", distance=apart_mm)
    is_kept: Flags = np.ones(len(places), np.bool_)
    is_kept[near] = False
    late, early = shapely.STRtree(spots).query(spots, predicate="dwithin", distance=apart_mm)
    for one, other in sorted(zip(late.tolist(), early.tolist(), strict=True)):
        if other < one and is_kept[other]:
            is_kept[one] = False
    return places[is_kept]
