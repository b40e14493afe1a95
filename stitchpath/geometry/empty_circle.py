"""The largest empty circle: the widest place in a region that no line reaches.

Method: the lines part the region into faces; a circle without a line inside lies in one of
them, so the largest is that of the face with the largest inscribed circle. A line with a loose
end inside a face bounds none; such faces are searched square by square (branch and bound), all
at once, so that the widest one spares the others. Faces and their circles come from shapely.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.points import Points

_LONG = 8  # times as long as high
_CROOKED = 128  # vertices
_QUARTERS = np.array([[-1, -1], [1, -1], [-1, 1], [1, 1]]) / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class EmptyCircle:
    """A circle with no line inside: its centre and radius, mm."""

    centre: tuple[float, float]
    radius: float


def largest_empty_circle(
    lines: list[Points], region: shapely.Polygon, *, tolerance_mm: float
) -> EmptyCircle:
    """Return the largest circle inside a region that has no line inside.

    Args:
        lines: Polylines, shape (n, 2), mm; what lies outside the region counts for nothing.
        region: Valid, not empty; its border counts as a line.
        tolerance_mm: The true largest radius is at most this much larger.

    Cost: O(crossings log crossings), and more for each wide face with a loose end inside.
    """
    drawn = shapely.union_all([region.boundary, *map(shapely.LineString, lines)])
    polygons, cuts, dangles, _ = shapely.polygonize_full([drawn])
    faces = shapely.get_parts(polygons)
    inner = shapely.point_on_surface(faces)
    faces = _shortened(faces[shapely.contains(region, inner)])
    circles = shapely.maximum_inscribed_circle(faces, tolerance=tolerance_mm / 2)
    loose = np.concatenate([shapely.get_parts(cuts), shapely.get_parts(dangles)])
    is_open = np.zeros(len(faces), np.bool_)
    is_open[shapely.STRtree(loose).query(faces, predicate="intersects")[0]] = True
    radii = np.where(is_open, 0.0, shapely.length(circles))
    best = _circle(shapely.get_coordinates(region.representative_point())[0], 0.0)
    if (~is_open).any():
        widest = int(np.argmax(radii))
        best = _circle(shapely.get_coordinates(circles[widest])[0], radii[widest])
    is_open &= best.radius + tolerance_mm / 2 < shapely.length(circles)
    if not is_open.any():
        return best
    shapely.prepare(region)
    walls = shapely.STRtree(_segments(drawn))
    return _search(faces[is_open], region, walls, best=best, tolerance_mm=tolerance_mm / 2)


def _shortened(faces: NDArray[np.object_]) -> NDArray[np.object_]:
    """Return faces with the long and crooked ones cut across into pieces that overlap.

    A circle inside a face is no wider than the face is high, so it lies whole in one of two
    halves that overlap by that; these are halved again. Otherwise time would grow with the
    square of a face's length.
    """
    done: list[NDArray[np.object_]] = []
    while len(faces):
        low, high = np.split(shapely.bounds(faces), 2, axis=1)
        short, long = np.sort(high - low, axis=1).T
        is_long = (_LONG * short < long) & (shapely.get_num_coordinates(faces) > _CROOKED)
        done.append(faces[~is_long])
        low, high, short, faces = low[is_long], high[is_long], short[is_long], faces[is_long]
        reach = np.where(high - low == short[:, None], np.inf, short[:, None] / 2)
        middle = (low + high) / 2
        ends = (np.minimum(high, middle + reach), np.maximum(low, middle - reach))
        halves = shapely.box(*low.T, *ends[0].T), shapely.box(*ends[1].T, *high.T)
        parts = shapely.get_parts(shapely.intersection(faces, np.stack(halves)).ravel())
        faces = parts[shapely.get_type_id(parts) == shapely.GeometryType.POLYGON]
    return np.concatenate([np.empty(0, np.object_), *done])


def _segments(drawn: shapely.Geometry) -> NDArray[np.object_]:
    """Return the straight parts of lines."""
    points, owner = shapely.get_coordinates(shapely.get_parts(drawn), return_index=True)
    first = np.flatnonzero(np.diff(owner) == 0)
    return np.asarray(shapely.linestrings(np.stack([points[first], points[first + 1]], axis=1)))


def _search(
    faces: NDArray[np.object_],
    region: shapely.Polygon,
    walls: shapely.STRtree,
    *,
    best: EmptyCircle,
    tolerance_mm: float,
) -> EmptyCircle:
    """Search faces that have loose lines inside for a wider circle than the best so far.

    A square's best possible distance is that of its centre plus half its diagonal. Squares that
    cannot beat the best centre found by more than the tolerance are dropped, others quartered.
    """
    cells, half = _squares(faces)
    while len(cells):
        places = np.asarray(shapely.points(cells))
        _, distance = walls.query_nearest(places, all_matches=False, return_distance=True)
        distance = np.where(shapely.contains_xy(region, cells), distance, -distance)
        widest = int(np.argmax(distance))
        if best.radius < distance[widest]:
            best = _circle(cells[widest], distance[widest])
        stays = best.radius + tolerance_mm < distance + half * np.sqrt(2)
        half = np.repeat(half[stays] / 2, len(_QUARTERS))
        quarters = cells[stays][:, None, :] + 2 * half.reshape(-1, 4, 1) * _QUARTERS
        cells = quarters.reshape(-1, 2)
    return best


def _squares(faces: NDArray[np.object_]) -> tuple[Points, NDArray[np.float64]]:
    """Return the middles of squares that cover faces, and half their sides."""
    low, high = np.split(shapely.bounds(faces), 2, axis=1)
    half = (high - low).min(axis=1) / 2
    counts = np.ceil((high - low) / half[:, None] / 2).astype(np.intp)
    owner = np.repeat(np.arange(len(faces)), counts.prod(axis=1))
    first = np.cumsum(counts.prod(axis=1)) - counts.prod(axis=1)
    down, across = np.divmod(np.arange(len(owner)) - first[owner], counts[owner, 0])
    middles = low[owner] + half[owner, None] * (2 * np.column_stack([across, down]) + 1)
    return middles, half[owner]


def _circle(centre: NDArray[np.float64], radius: float) -> EmptyCircle:
    x, y = centre.tolist()
    return EmptyCircle(centre=(x, y), radius=float(radius))
