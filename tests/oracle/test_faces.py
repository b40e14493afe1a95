"""Faces against shapely: the parts of the plane that noded lines bound, and what lies beside.

The oracle nodes the lines by shapely's union and lets its polygonizer find the polygons.
"""

import numpy as np
import shapely
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st
from scipy.spatial import cKDTree

from stitchpath.geometry.faces import Faces, find_faces
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import MEETING_MM
from tests.strategies import polylines, straight_lines

RING = np.array([[-90.0, -60], [90, -60], [90, 60], [-90, 60], [-90, -60]])
INNER = RING / 3 + 0.25
_NOISE_MM = 1e-12
"""Of a place on a line, as shapely works it out."""


def _polygons(paths: list[Points]) -> list[shapely.Polygon]:
    noded = shapely.union_all([shapely.LineString(path) for path in paths])
    found = shapely.get_parts(shapely.polygonize([noded]))
    return [polygon for polygon in found if polygon.area > 0]


def _shapes(faces: Faces) -> list[shapely.Polygon]:
    if len(faces.widest) == 1:
        return []
    return list(faces.borders.shapes(np.arange(1, len(faces.widest))))


def _closest_mm(paths: list[Points]) -> float:
    """Return how near two vertices or crossings are, or one to a line it is not on."""
    noded = shapely.union_all([shapely.LineString(path) for path in paths])
    xy = shapely.get_coordinates(noded)
    tree = shapely.STRtree(np.asarray(shapely.points(xy)))
    line, place = tree.query(
        shapely.get_parts(noded), predicate="dwithin", distance=10 * MEETING_MM
    )
    off = shapely.distance(shapely.get_parts(noded)[line], shapely.points(xy[place]))
    places = np.unique(np.round(xy, 7), axis=0)
    apart = cKDTree(places).query(places, k=2)[0][:, 1].min()
    return float(min(apart, np.min(off[off > _NOISE_MM], initial=np.inf)))


def _wide(shapes: list[shapely.Polygon]) -> list[shapely.Polygon]:
    """Leave out what is no wider than two crossings that count as one place."""
    return [shape for shape in shapes if not shape.buffer(-0.01).is_empty]


FOLDED = [
    np.array([(0.0, -20.0), (-10, 0), (40, 0), (0, 0), (10, 0)]),  # ends on what it turned on
    np.array(
        [(0.0, -20.0), (-10, 0), (40, 0), (0, 0), (-10, 0)]
    ),  # goes on over two of its own
]


@settings(deadline=None)
@example(lines=FOLDED[:1])
@example(lines=FOLDED[1:])
@given(lines=st.one_of(straight_lines(), st.lists(polylines(), min_size=1, max_size=6)))
def test_faces_are_the_polygons_that_shapely_finds(lines: list[Points]) -> None:
    paths = [RING, INNER, *lines]
    assume(_closest_mm(paths) > 10 * MEETING_MM)
    shapes, polygons = _wide(_shapes(find_faces(paths))), _wide(_polygons(paths))
    tree = shapely.STRtree(polygons)
    for shape in shapes:
        (own,) = tree.query(shape.point_on_surface(), predicate="within")
        assert shapely.hausdorff_distance(shape, polygons[own]) < 0.01
    assert len(polygons) == len(shapes)


def test_a_vertex_on_a_side_that_two_shapes_share_parts_none_of_them() -> None:
    upper = np.array([(0.0, 0.0), (90, 0), (90, 40), (0, 40), (0, 0)])
    lower = np.array([(90.0, 0.0), (50, 0), (0, 0), (0, -30), (90, -30), (90, 0)])
    assert sorted(shape.area for shape in _shapes(find_faces([upper, lower]))) == [2700, 3600]


@settings(deadline=None)
@given(lines=straight_lines())
def test_the_faces_on_both_sides_lie_there(lines: list[Points]) -> None:
    faces = find_faces([RING, INNER, *lines])
    shapes = _shapes(faces)
    stretches = faces.borders.stretches
    ends = np.stack(
        [stretches.xy[stretches.starts[:-1]], stretches.xy[stretches.starts[:-1] + 1]]
    )
    step = ends[1] - ends[0]
    across = np.column_stack([-step[:, 1], step[:, 0]]) / np.hypot(*step.T)[:, None]
    for side, sign in ((0, 1), (1, -1)):
        beside = shapely.points(ends.mean(axis=0) + sign * 1e-4 * across)
        for point, face in zip(beside, faces.sides[:, side].tolist(), strict=True):
            inside = [number for number, each in enumerate(shapes, 1) if each.contains(point)]
            assert inside == ([face] if face else [])


@settings(deadline=None)
@given(lines=st.one_of(straight_lines(), st.lists(polylines(), min_size=1, max_size=6)))
def test_no_circle_in_a_face_is_wider_than_was_said(lines: list[Points]) -> None:
    faces = find_faces([RING, *lines])
    for shape, widest in zip(_shapes(faces), faces.widest[1:], strict=True):
        radius = 0.0 if shape.is_empty else shapely.maximum_inscribed_circle(shape).length
        assert radius <= widest + 1e-6
