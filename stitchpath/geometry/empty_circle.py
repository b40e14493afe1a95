"""The largest empty circle: the widest place in a region that no line reaches.

Method: the lines part the region into faces; a circle without a line inside lies in one of
them, so the largest is that of the face with the largest inscribed circle. Faces are looked at
from the one that could hold the largest on, until no other can hold a larger. A line with a
loose end inside a face bounds none; in such faces, points are set closely on all lines. The
centre of a circle that is as large as can be between points is a vertex of their Voronoi
diagram (textbook computational geometry). Inscribed circles come from shapely, the triangles
that the diagram comes from are scipy's. Repeats leave many faces that are the same but for
their place; one of them is looked at.
"""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.faces import Borders, find_faces
from stitchpath.geometry.points import Points
from stitchpath.geometry.same_faces import face_keys

_MOST_FACES = 256  # looked at together
_CELLS = 16
_SOME = 16  # centres that are measured together


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
    return _search(shapes[open_to], np.concatenate(inside), best, tolerance_mm=tolerance_mm)


def _search(
    faces: NDArray[np.object_],
    loose: NDArray[np.object_],
    best: EmptyCircle,
    *,
    tolerance_mm: float,
) -> EmptyCircle:
    """Search faces that have loose lines inside for a circle larger than the best.

    Between points that lie s apart on straight lines, a circle of radius r that holds no point
    is cut into by a line by at most s^2 / (8 r); so the best circle on a coarse grid tells how
    close the points have to be. Curves are made of fewer straight lines first. Each of the two
    may take half of the tolerance.
    """
    borders = shapely.get_parts(shapely.boundary(faces))
    walls = shapely.multilinestrings([*shapely.get_parts(borders), *loose])
    best = _larger(best, _best_of(_coarse_grid(faces[0]), walls))
    spacing = np.sqrt(8 * best.radius * tolerance_mm / 2)
    straight = shapely.simplify(
        shapely.get_parts(walls), tolerance_mm / 2, preserve_topology=False
    )
    has_length = shapely.length(straight) > 0  # not so a loop smaller than the tolerance
    straight[has_length] = shapely.segmentize(straight[has_length], spacing)
    dots = np.unique(shapely.get_coordinates(straight), axis=0)
    centres, radii = _circumcircles(dots)
    centres, radii = centres[best.radius < radii], radii[best.radius < radii]
    tree = shapely.STRtree(np.asarray(shapely.points(centres)))
    _, inside = tree.query(faces, predicate="contains")
    inside = inside[np.argsort(-radii[inside], kind="stable")]
    for first in range(0, len(inside), _SOME):
        if radii[inside[first]] <= best.radius + tolerance_mm:
            break
        best = _larger(best, _best_of(centres[inside[first : first + _SOME]], walls))
    return best


def _larger(one: EmptyCircle, other: EmptyCircle) -> EmptyCircle:
    return max(one, other, key=lambda circle: circle.radius)


def _coarse_grid(face: shapely.Polygon) -> Points:
    """Return points inside a face, `_CELLS` along the shorter side of its box or more."""
    left, top, right, bottom = face.bounds
    step = min(right - left, bottom - top) / _CELLS
    axes = (
        np.arange(low + step / 2, high, step) for low, high in ((left, right), (top, bottom))
    )
    grid = np.stack(np.meshgrid(*axes), axis=-1).reshape(-1, 2)
    inner = shapely.get_coordinates(shapely.point_on_surface(face))
    return np.concatenate([inner, grid[shapely.contains_xy(face, grid)]])


def _best_of(centres: Points, walls: shapely.Geometry) -> EmptyCircle:
    """Return the largest of the empty circles round some points of a face."""
    shapely.prepare(walls)
    radii = np.asarray(shapely.distance(walls, shapely.points(centres)))
    best = int(np.argmax(radii))
    return _circle(centres[best], radii[best])


def _circumcircles(dots: Points) -> tuple[Points, NDArray[np.float64]]:
    """Return the centres and radii of the circles round the triangles between points."""
    from scipy.spatial import Delaunay  # noqa: PLC0415 - takes longer than most projects do

    corner, one, other = dots[Delaunay(dots).simplices].swapaxes(0, 1)
    one, other = one - corner, other - corner
    flat = one[:, 0] * other[:, 1] == one[:, 1] * other[:, 0]
    corner, one, other = corner[~flat], one[~flat], other[~flat]
    twice = 2 * (one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0])
    square_one, square_other = (one**2).sum(axis=1), (other**2).sum(axis=1)
    x = (other[:, 1] * square_one - one[:, 1] * square_other) / twice
    y = (one[:, 0] * square_other - other[:, 0] * square_one) / twice
    return corner + np.column_stack([x, y]), np.hypot(x, y)


def _circle(centre: NDArray[np.float64], radius: float) -> EmptyCircle:
    x, y = centre.tolist()
    return EmptyCircle(centre=(x, y), radius=float(radius))
