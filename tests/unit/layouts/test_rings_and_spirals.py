"""Layouts that follow the border or wind round the middle."""

import numpy as np
import pytest
import shapely

from stitchpath.geometry.empty_circle import largest_empty_circle
from stitchpath.geometry.points import path_length
from stitchpath.layouts import find_layout
from stitchpath.layouts._layout import Ground, Region
from stitchpath.model.project import Quilting


def _ground(region: Region) -> Ground:
    return Ground(region=region, frame=region.bounds)


BOX = _ground(shapely.box(0, 0, 300, 240))


def _made(name: str, ground: Ground, spacing: float = 75.0) -> list[shapely.LineString]:
    strands = find_layout(name).make(ground, Quilting(layout=name, spacing=spacing))
    return [shapely.LineString(strand.points) for strand in strands]


def test_concentric_lines_of_a_rectangle_are_rectangles_a_spacing_apart() -> None:
    """240 / 2 / 50 = 2.4: two rings, 200 x 140 inside 300 x 240 at 50, then 100 x 40 at 100."""
    rings = _made("concentric", BOX, spacing=50)
    assert [ring.bounds for ring in rings] == [(100, 100, 200, 140), (50, 50, 250, 190)]
    assert all(ring.is_closed and len(ring.coords) == 5 for ring in rings)


def test_concentric_lines_echo_a_hole_as_well() -> None:
    outer, inner = shapely.box(0, 0, 300, 300), shapely.box(140, 140, 160, 160)
    holed = shapely.Polygon(outer.exterior.coords, [inner.exterior.coords])
    rings = _made("concentric", _ground(holed), spacing=40)
    assert sorted(ring.bounds for ring in rings) == [(40, 40, 260, 260), (100, 100, 200, 200)]


def test_an_echo_is_its_spacing_from_the_shape_everywhere() -> None:
    """An L has one corner that points inwards; its echo passes it on an arc."""
    shape = shapely.Polygon([(0, 0), (200, 0), (200, 100), (100, 100), (100, 200), (0, 200)])
    *_, outer = _made("echo", _ground(shape), spacing=20)
    away = shapely.distance(shapely.points(shapely.get_coordinates(outer)), shape.boundary)
    assert away == pytest.approx(20, abs=0.011)


def test_an_outline_is_the_border_itself() -> None:
    (line,) = _made("outline", BOX)
    assert line.equals(BOX.region.boundary)


def test_a_round_spiral_widens_by_its_spacing_a_turn() -> None:
    """Archimedes: r = s t / 2 pi, so along any ray the turns are a spacing apart."""
    (line,) = _made("round-spiral", BOX, spacing=30)
    ray = shapely.LineString([(150, 120), (150 + 185, 120)])
    crossings = shapely.get_coordinates(shapely.intersection(line, ray))[:, 0] - 150
    gaps = np.diff(np.sort(crossings))
    assert gaps == pytest.approx(np.full(len(gaps), 30.0), abs=0.02)
    points = shapely.get_coordinates(line) - (150, 120)
    assert (np.diff(np.hypot(*points.T)) > 0).all()


def test_a_round_spiral_is_as_long_as_the_integral_of_its_arc() -> None:
    """The arc of r = s t / 2 pi is s / 4 pi (t sqrt(1 + t^2) + asinh t), by calculus."""
    (line,) = _made("round-spiral", BOX, spacing=30)
    points = shapely.get_coordinates(line) - (150, 120)
    turn = float(np.hypot(*points[-1])) / 30 * 2 * np.pi
    length = 30 / (4 * np.pi) * (turn * np.hypot(1, turn) + np.arcsinh(turn))
    assert path_length(points) == pytest.approx(length, rel=1e-4)


def test_a_square_spiral_runs_outwards_square_to_the_edges() -> None:
    """240 / 2 / 40 = 3 turns; the outermost corner is 40 from both edges."""
    (line,) = _made("square-spiral", BOX, spacing=40)
    points = shapely.get_coordinates(line)
    steps = np.diff(points, axis=0)
    assert (np.abs(steps).min(axis=1) < 1e-9).all()
    assert points[-1].tolist() == [40, 40]
    assert line.is_simple


@pytest.mark.parametrize("spacing", [17.0, 30.0, 41.0, 60.0])
def test_a_square_spiral_leaves_no_gap_wider_than_two_spacings(spacing: float) -> None:
    (line,) = _made("square-spiral", BOX, spacing=spacing)
    box = shapely.box(*BOX.frame)
    circle = largest_empty_circle([np.array(line.coords)], box, tolerance_mm=0.1)
    assert circle.radius < spacing
    assert line.is_simple


@pytest.mark.parametrize("name", ["concentric", "echo", "square-spiral"])
def test_where_there_is_no_room_nothing_is_laid(name: str) -> None:
    assert _made(name, BOX, spacing=500) == []
