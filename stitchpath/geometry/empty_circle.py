"""The largest empty circle: the widest place in a region that no line reaches.

Method: the lines part the region into faces; a circle without a line inside lies in one of
them, so the largest is that of the face with the largest inscribed circle. A line with a loose
end inside a face bounds none; such faces are searched square by square (branch and bound).
Faces and their circles come from shapely.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.points import Points

_FIRST_CELLS = 8  # along a face's shorter side
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
    faces = faces[shapely.contains(region, inner)]
    circles = shapely.maximum_inscribed_circle(faces, tolerance=tolerance_mm / 2)
    radii = shapely.length(circles)
    loose = np.concatenate([shapely.get_parts(cuts), shapely.get_parts(dangles)])
    tree = shapely.STRtree(loose)
    best = _circle(shapely.get_coordinates(region.representative_point())[0], 0.0)
    for index in np.argsort(-radii, kind="stable"):
        if radii[index] <= best.radius + tolerance_mm / 2:
            break
        inside = loose[np.sort(tree.query(faces[index], predicate="intersects"))]
        found = (
            _search(faces[index], inside, tolerance_mm=tolerance_mm / 2)
            if len(inside)
            else _circle(shapely.get_coordinates(circles[index])[0], radii[index])
        )
        best = max(best, found, key=lambda circle: circle.radius)
    return best


def _search(
    face: shapely.Polygon, inside: NDArray[np.object_], *, tolerance_mm: float
) -> EmptyCircle:
    """Search a face that has loose lines inside.

    A square's best possible distance is that of its centre plus half its diagonal. Squares that
    cannot beat the best centre found by more than the tolerance are dropped, others quartered.
    """
    walls = shapely.union_all([face.boundary, *inside])
    shapely.prepare(walls)
    left, top, right, bottom = face.bounds
    half = min(right - left, bottom - top) / _FIRST_CELLS / 2
    axes = (
        np.arange(low + half, high + half, 2 * half)
        for low, high in ((left, right), (top, bottom))
    )
    cells = np.stack(np.meshgrid(*axes), axis=-1).reshape(-1, 2)
    best = EmptyCircle(centre=(left, top), radius=0.0)
    while len(cells):
        distance = shapely.distance(walls, shapely.points(cells))
        distance = np.where(shapely.contains_xy(face, cells), distance, -distance)
        widest = int(np.argmax(distance))
        if best.radius < distance[widest]:
            best = _circle(cells[widest], distance[widest])
        cells = cells[best.radius + tolerance_mm < distance + half * np.sqrt(2)]
        half /= 2
        cells = (cells[:, None, :] + 2 * half * _QUARTERS).reshape(-1, 2)
    return best


def _circle(centre: NDArray[np.float64], radius: float) -> EmptyCircle:
    x, y = centre.tolist()
    return EmptyCircle(centre=(x, y), radius=float(radius))
