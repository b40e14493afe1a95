"""Meander and stipple: one wandering line in each part of an area."""

import numpy as np
import pytest
import shapely

from stitchpath.geometry.points import Points, path_length
from stitchpath.geometry.tolerance import SHARP_TURN_DEG
from stitchpath.layouts import find_layout
from stitchpath.layouts._layout import Region
from stitchpath.model.quilt import Quilting
from tests.support.curved_layouts import sharpest_turn_deg
from tests.support.regions import farthest_mm, ground_of
from tests.support.straight_layouts import border_ground


def lines_on(region: Region, spacing: float, *, name: str = "meander") -> list[Points]:
    spec = Quilting(layout=name, spacing=spacing)
    return [strand.points for strand in find_layout(name).make(ground_of(region), spec)]


def test_passes_lie_about_a_spacing_apart() -> None:
    # evenly spaced lines hold an area with a length of area / spacing
    (line,) = lines_on(shapely.box(0, 0, 900, 900), 15)
    assert 900 * 900 / path_length(line) == pytest.approx(15, rel=0.2)


@pytest.mark.parametrize("spacing", [12.0, 50.0])
def test_no_place_of_a_rectangle_is_far_from_the_line(spacing: float) -> None:
    region = shapely.box(0, 0, 800, 600)
    assert farthest_mm(region, lines_on(region, spacing), step_mm=2) <= 0.8 * spacing


def test_each_part_of_an_area_gets_one_line() -> None:
    parts = [shapely.box(0, 0, 200, 300), shapely.box(300, 0, 420, 300)]
    lines = lines_on(shapely.MultiPolygon(parts), 20)
    assert len(lines) == 2
    for part in parts:
        assert sum(part.covers(shapely.LineString(line)) for line in lines) == 1


def bell(*, neck: float) -> shapely.Polygon:
    """Return two squares joined by a neck."""
    left, right = shapely.box(0, 0, 100, 100), shapely.box(200, 0, 300, 90)
    joined = shapely.union_all([left, shapely.box(90, 50, 210, 50 + neck), right])
    assert isinstance(joined, shapely.Polygon)
    return joined


def test_a_frame_and_a_narrow_neck_are_filled_by_one_line() -> None:
    for region in (border_ground(500, 400, 60).region, bell(neck=6)):
        assert len(lines_on(region, 20)) == 1


def test_a_neck_much_narrower_than_the_spacing_parts_the_line() -> None:
    assert len(lines_on(bell(neck=2), 20)) == 2  # 2 mm are a tenth of the spacing


def test_the_line_has_no_corners() -> None:
    (line,) = lines_on(shapely.box(0, 0, 600, 400), 18)
    assert sharpest_turn_deg(line) < SHARP_TURN_DEG


def test_a_spacing_wider_than_the_area_still_gives_a_line() -> None:
    (line,) = lines_on(shapely.box(0, 0, 40, 30), 100)
    assert path_length(line) > 20
    assert lines_on(shapely.box(0, 0, 40, 30), 1000) == []


def test_what_is_too_narrow_for_a_line_gets_none() -> None:
    assert lines_on(shapely.box(0, 0, 300, 1), 20) == []


def test_stipple_is_the_meander_of_its_spacing() -> None:
    region = shapely.box(0, 0, 120, 90)
    (meander,), (stipple,) = (lines_on(region, 8, name=name) for name in ("meander", "stipple"))
    np.testing.assert_array_equal(meander, stipple)
