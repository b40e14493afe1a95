"""The largest empty circle: the widest place in a region that no line reaches.

Method: the lines part the region into faces; a circle without a line inside lies in one of
them, so the largest is that of the face with the largest inscribed circle. Faces are looked at
from the one that could hold the largest on, until no other can hold a larger. Inscribed circles
come from shapely. A line with a loose end inside a face bounds none; in such faces the circle
is looked for by itself, see `circle_search`. Repeats leave many faces that are the same but for
their place; one of them is looked at.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.circle_search import widest_circle
from stitchpath.geometry.faces import Borders, find_faces
from stitchpath.geometry.points import Points
from stitchpath.geometry.same_faces import face_keys

_MOST_FACES = 256  # looked at together


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

    Cost: O((segments + crossings) log), and more for each face that could hold it.
    """
    rings = [region.exterior, *region.interiors]
    faces = find_faces([*map(shapely.get_coordinates, rings), *lines])
    shapely.prepare(region)
    best = _circle(shapely.get_coordinates(region.representative_point())[0], 0.0)
    order = np.argsort(-faces.widest[1:], kind="stable") + 1
    seen: set[bytes] = set()
    done, size = 0, 1
    while done < len(order) and best.radius + tolerance_mm / 2 < faces.widest[order[done]]:
        batch = _fresh_faces(region, faces.borders, order[done : done + size], seen)
        if batch:
            best = _in_faces(batch, best, tolerance_mm=tolerance_mm / 2)
        done, size = done + size, min(2 * size, _MOST_FACES)
    return best


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Face:
    """A face's outline, and the lines with a loose end inside it."""

    shape: shapely.Polygon
    loose: NDArray[np.object_]


def _fresh_faces(
    region: shapely.Polygon, borders: Borders, numbers: NDArray[np.intp], seen: set[bytes]
) -> list[_Face]:
    """Return the faces of a region that are the same as none seen, and note them as seen.

    One outside the region stands for none: only those inside are told from one another.
    """
    keys = face_keys(borders, numbers)
    fresh = [at for at, key in enumerate(keys) if key not in seen]
    if not fresh:
        return []
    shapes = borders.shapes(numbers[fresh])
    own = shapely.contains(region, shapely.point_on_surface(shapes))
    faces: list[_Face] = []
    for at, shape, is_own in zip(fresh, shapes, own.tolist(), strict=True):
        if is_own and keys[at] not in seen:
            seen.add(keys[at])
            faces.append(_Face(shape=shape, loose=borders.loose(int(numbers[at]))))
    return faces


def _in_faces(faces: list[_Face], best: EmptyCircle, *, tolerance_mm: float) -> EmptyCircle:
    """Return the largest circle in some faces, at least one, or the best found before."""
    shapes = np.array([face.shape for face in faces])
    circles = shapely.maximum_inscribed_circle(shapes, tolerance=tolerance_mm)
    radii = shapely.length(circles)
    is_whole = np.array([not len(face.loose) for face in faces])
    if is_whole.any():
        widest = int(np.argmax(np.where(is_whole, radii, -1.0)))
        centre = shapely.get_coordinates(circles[widest])[0]
        best = _larger(best, _circle(centre, radii[widest]))
    open_to = ~is_whole & (best.radius + tolerance_mm < radii)
    if not open_to.any():
        return best
    inside = [faces[index].loose for index in np.flatnonzero(open_to)]
    borders = shapely.get_parts(shapely.get_parts(shapely.boundary(shapes[open_to])))
    found = widest_circle(
        shapes[open_to],
        np.concatenate([borders, *inside]),
        least_mm=best.radius,
        tolerance_mm=tolerance_mm,
    )
    return _circle(*found) if found else best


def _larger(one: EmptyCircle, other: EmptyCircle) -> EmptyCircle:
    return max(one, other, key=lambda circle: circle.radius)


def _circle(centre: NDArray[np.float64], radius: float) -> EmptyCircle:
    x, y = centre.tolist()
    return EmptyCircle(centre=(x, y), radius=float(radius))
