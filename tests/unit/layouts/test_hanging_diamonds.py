"""Hanging diamonds."""

from itertools import product
from math import hypot, pi, radians, sin, sqrt

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchpath.geometry.points import Points
from stitchpath.layouts.hanging_diamonds import LAYOUT
from stitchpath.model.quilt import Quilting
from tests.support.straight_layouts import anchors, as_set, clipped, places, rectangle_ground

GROUND = rectangle_ground(600, 800)


def middle_mesh(spec: Quilting) -> Points:
    """Return the corners of a mesh near the middle of the ground."""
    lines = clipped(LAYOUT.make(GROUND, spec), GROUND)
    meshes = shapely.get_parts(
        shapely.polygonize(
            [shapely.union_all(shapely.linestrings([line.tolist() for line in lines]))]
        )
    )
    near = min(meshes, key=lambda mesh: mesh.distance(shapely.Point(301, 401)))
    return shapely.get_coordinates(near.normalize())[:-1]


def test_a_60_degree_diamond_is_h_over_0_866_across_and_2_h_long() -> None:
    # catbirdquilts.wordpress.com, "Harlequin Diamonds": 5 in strips, 10 in by 5 / .866 in
    corners = middle_mesh(Quilting(spacing=5 * 25.4, angle=60))
    across, along = sorted(np.hypot(*(corners[i] - corners[i + 2])) / 25.4 for i in (0, 1))
    assert across == pytest.approx(5 / 0.866, abs=1e-3)
    assert along == pytest.approx(10)


@settings(deadline=None)
@given(st.floats(20, 160), st.floats(30, 100))
def test_every_mesh_is_a_rhombus_of_its_angle(angle: float, spacing: float) -> None:
    corners = middle_mesh(Quilting(spacing=spacing, angle=angle))
    sides = np.roll(corners, -1, axis=0) - corners
    assert len(corners) == 4
    assert np.hypot(*sides.T) == pytest.approx(spacing / sin(radians(angle)))


def test_angle_0_is_read_as_60() -> None:
    texts = [
        as_set([strand.points for strand in LAYOUT.make(GROUND, Quilting(angle=angle))])
        for angle in (0, 60, 180, -360)
    ]
    assert texts == [texts[1]] * 4


def test_beyond_90_degrees_they_lean_the_other_way() -> None:
    def mirrored(points: Points) -> Points:
        return points * (-1, 1) + (600, 0)

    one = clipped(LAYOUT.make(GROUND, Quilting(angle=50)), GROUND)
    other = clipped(LAYOUT.make(GROUND, Quilting(angle=130)), GROUND)
    negative = clipped(LAYOUT.make(GROUND, Quilting(angle=-50)), GROUND)
    assert as_set([mirrored(line) for line in one]) == as_set(other) == as_set(negative)


def test_both_sets_run_through_the_centre_and_are_anchors_there() -> None:
    upright, slanting = anchors(LAYOUT.make(GROUND, Quilting(spacing=50)))
    assert upright[:, 0].tolist() == [300, 300]
    assert shapely.LineString(slanting).distance(shapely.Point(300, 400)) < 1e-9
    way = slanting[1] - slanting[0]
    assert abs(way[1]) / hypot(*way) == pytest.approx(np.cos(pi / 3))


def test_both_sets_begin_at_the_upper_left_corner() -> None:
    strands = LAYOUT.make(GROUND, Quilting(spacing=70, start="edge"))
    assert places(strands, 90)[0] == 0
    assert np.abs(places(strands, 150)).min() < 1e-9


@pytest.mark.parametrize("angle", [30, 45, 60, 70, 120])
def test_with_both_slants_all_three_sets_meet_in_points(angle: float) -> None:
    strands = LAYOUT.make(GROUND, Quilting(spacing=60, angle=angle, count=2))
    ways = [np.subtract(*strand.points) for strand in strands]
    slanting = [s for s, way in zip(strands, ways, strict=True) if abs(way[0]) > 1e-9]
    downs = [s.points for s in slanting if np.prod(np.subtract(*s.points)) > 0]
    ups = [s.points for s in slanting if np.prod(np.subtract(*s.points)) < 0]
    assert len(downs) == len(ups) > 3
    for one, other in product(downs, ups):
        meeting = shapely.LineString(one).intersection(shapely.LineString(other))
        if not meeting.is_empty:
            steps = (shapely.get_coordinates(meeting)[0, 0] - 300) / 60
            assert steps == pytest.approx(round(steps), abs=1e-6)


def test_at_60_degrees_both_slants_make_equilateral_triangles() -> None:
    corners = middle_mesh(Quilting(spacing=60, count=2))
    sides = np.roll(corners, -1, axis=0) - corners
    assert len(corners) == 3
    assert np.hypot(*sides.T) == pytest.approx(60 * 2 / sqrt(3))


@pytest.mark.parametrize(("angle", "sets"), [(90, 1), (89.999, 2), (80, 2)])
def test_near_90_degrees_lines_stay_apart(angle: float, sets: int) -> None:
    strands = LAYOUT.make(GROUND, Quilting(spacing=60, angle=angle, count=2))
    assert len(strands) < 11 + sets * 17
    at = places(strands, 90 + angle)
    assert np.diff(at) == pytest.approx(60)


def test_it_repeats_by_a_side_down_the_length() -> None:
    repeat = LAYOUT.repeat
    assert repeat is not None
    both = Quilting(spacing=60, count=2, angle=45, start="edge")
    assert repeat(Quilting(spacing=60)) == pytest.approx((30, 30 / 0.8660254))
    assert repeat(both) == pytest.approx((60, 120))


def test_fitted_upright_lines_lie_on_both_edges() -> None:
    """Of five spacings to the side none runs through the middle."""
    strands = LAYOUT.make(rectangle_ground(300, 200), Quilting(spacing=60, fit=True))
    assert places(strands, 90) == pytest.approx(np.arange(0, 301, 60))
