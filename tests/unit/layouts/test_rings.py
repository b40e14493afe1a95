"""Concentric, echo and outline: rings along the border of an area."""

from typing import Literal

import numpy as np
import pytest
import shapely

from stitchpath.geometry.points import Points
from stitchpath.layouts import find_layout
from stitchpath.layouts._layout import Region
from stitchpath.model.quilt import Quilting
from tests.support.regions import ground_of
from tests.support.straight_layouts import border_ground


def rings(
    name: str, region: Region, spacing: float = 20, start: Literal["centre", "edge"] = "centre"
) -> list[Points]:
    spec = Quilting(layout=name, spacing=spacing, start=start)
    strands = find_layout(name).make(ground_of(region), spec)
    return [strand.points for strand in strands]


def boxes(lines: list[Points]) -> list[list[float]]:
    found = [np.concatenate([line.min(axis=0), line.max(axis=0)]) for line in lines]
    return [box.round(2).tolist() for box in found]


def test_concentric_squares_by_hand() -> None:
    # 50 deep: half a spacing from the middle, 40, then 20; their corners are sharp
    lines = rings("concentric", shapely.box(0, 0, 100, 100))
    assert boxes(lines) == [[40, 40, 60, 60], [20, 20, 80, 80]]
    assert [len(line) for line in lines] == [5, 5]


def test_concentric_squares_from_the_edge_begin_on_it() -> None:
    lines = rings("concentric", shapely.box(0, 0, 100, 100), start="edge")
    assert boxes(lines) == [[40, 40, 60, 60], [20, 20, 80, 80], [0, 0, 100, 100]]


def test_a_bare_middle_gets_one_ring_more() -> None:
    # 38 deep: after 0 and 20 there are 18 to the middle, more than 0.8 of 20; halfway is 29
    lines = rings("concentric", shapely.box(0, 0, 76, 76), start="edge")
    assert boxes(lines) == [[29, 29, 47, 47], [20, 20, 56, 56], [0, 0, 76, 76]]


@pytest.mark.parametrize("name", ["concentric", "echo"])
def test_rings_lie_at_their_distance_from_the_border(name: str) -> None:
    region = shapely.Polygon([(0, 0), (200, 30), (180, 200), (110, 90), (20, 150)])
    depth = shapely.length(shapely.maximum_inscribed_circle(region, tolerance=0.001))
    first = 20 if name == "echo" else (depth - 10) % 20
    allowed = first + 20 * np.arange(9)
    for line in rings(name, region):
        away = shapely.distance(region.exterior, shapely.LineString(line))
        halfway = name == "echo" and away > depth - 20
        assert halfway or np.abs(allowed - away).min() < 0.02


def test_echo_does_not_sew_the_border_and_rounds_what_is_kept_clear() -> None:
    # 20 outside a square of 60: four sides and four quarter circles
    square = shapely.box(70, 70, 130, 130)
    region = shapely.box(0, 0, 200, 200).difference(square)
    assert isinstance(region, shapely.Polygon)
    lines = [shapely.LineString(line) for line in rings("echo", region)]
    around = [line for line in lines if abs(line.distance(square) - 20) < 0.02]
    assert len(around) == 1
    assert around[0].length == pytest.approx(4 * 60 + 2 * np.pi * 20, rel=1e-3)
    assert min(line.distance(region.exterior) for line in lines) == pytest.approx(20)


def test_an_echo_is_its_spacing_from_the_shape_everywhere() -> None:
    """An L has one corner that points inwards; its echo passes it on an arc."""
    shape = shapely.Polygon([(0, 0), (200, 0), (200, 100), (100, 100), (100, 200), (0, 200)])
    outer = shapely.LineString(rings("echo", shape)[-1])
    away = shapely.distance(shapely.points(shapely.get_coordinates(outer)), shape.boundary)
    assert away == pytest.approx(20, abs=0.011)


def test_echo_arcs_are_flattened_finely() -> None:
    square = shapely.box(140, 140, 160, 160)
    region = shapely.box(0, 0, 300, 300).difference(square)
    assert isinstance(region, shapely.Polygon)
    for line in rings("echo", region, 60):
        if abs(shapely.LineString(line).distance(square) - 60) < 0.02:
            middles = (line[1:] + line[:-1]) / 2
            away = shapely.distance(square, shapely.points(middles))
            np.testing.assert_allclose(away, 60, atol=0.02)
            return
    pytest.fail("no ring lies 60 mm outside the square")


def test_a_frame_gets_the_same_rings_from_both_its_borders() -> None:
    # 60 wide: 10 from the middle line on both sides is 20 from both borders, corners sharp
    lines = rings("concentric", border_ground(400, 300, 60).region)
    assert boxes(lines) == [[40, 40, 360, 260], [20, 20, 380, 280]]
    assert [len(line) for line in lines] == [5, 5]


def test_outline_is_the_border_once() -> None:
    region = shapely.box(0, 0, 90, 60).difference(shapely.box(30, 20, 50, 40))
    assert isinstance(region, shapely.Polygon)
    lines = rings("outline", region)
    assert sum(shapely.LineString(line).length for line in lines) == pytest.approx(300 + 80)
    assert shapely.MultiLineString(lines).equals(region.boundary)


@pytest.mark.parametrize("name", ["outline", "concentric", "echo"])
def test_rings_close(name: str) -> None:
    region = shapely.MultiPolygon([shapely.box(0, 0, 90, 90), shapely.box(200, 0, 300, 90)])
    lines = rings(name, region)
    assert len(lines) >= 2
    assert all((line[0] == line[-1]).all() for line in lines)


@pytest.mark.parametrize("start", ["centre", "edge"])
def test_a_spacing_wider_than_the_area_gives_few_rings(
    start: Literal["centre", "edge"],
) -> None:
    region = shapely.box(0, 0, 30, 20)
    assert len(rings("concentric", region, 500, start)) <= 1
    assert rings("echo", region, 500) == []
