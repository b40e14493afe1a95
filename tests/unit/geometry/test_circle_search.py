"""The largest circle in faces that lines with loose ends reach into."""

from typing import Any

import numpy as np
import pytest
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.circle_search import widest_circle

TOLERANCE_MM = 0.01


def _found(
    faces: list[shapely.Polygon],
    loose: list[Any],
    least_mm: float = 0.0,
) -> tuple[NDArray[np.float64], float] | None:
    borders = [face.exterior for face in faces]
    lines = np.array([*borders, *map(shapely.LineString, loose)])
    return widest_circle(np.array(faces), lines, least_mm=least_mm, tolerance_mm=TOLERANCE_MM)


def test_circle_touches_two_walls_and_a_loose_end() -> None:
    """100 by 60 mm, a line from the left to the middle.

    The radius is r = 100 - x = 30 - v if the centre is v mm off the line, and
    (20 + v)^2 + v^2 = r^2 for the loose end: v = sqrt(3000) - 50.
    """
    found = _found([shapely.box(0, 0, 100, 60)], [[(0, 30), (50, 30)]])
    assert found is not None
    off = np.sqrt(3000) - 50
    assert found[1] == pytest.approx(30 - off, abs=TOLERANCE_MM)
    assert found[0][0] == pytest.approx(70 + off, abs=0.1)
    assert abs(found[0][1] - 30) == pytest.approx(off, abs=0.1)


@pytest.mark.parametrize("turn_deg", [0.0, 31.0])
def test_in_a_long_strip_it_is_half_as_wide_as_the_strip(turn_deg: float) -> None:
    cos, sin = np.cos(np.deg2rad(turn_deg)), np.sin(np.deg2rad(turn_deg))
    turned = np.array([[cos, sin], [-sin, cos]])
    corners = np.array([[0.0, 0], [3000, 0], [3000, 19], [0, 19]]) @ turned
    start = np.array([[0.0, 9], [2, 9]]) @ turned
    found = _found([shapely.Polygon(corners)], [start])
    assert found is not None
    assert found[1] == pytest.approx(9.5, abs=TOLERANCE_MM)


def test_it_is_the_largest_of_all_faces_and_of_one_with_a_hole() -> None:
    small = shapely.box(200, 0, 220, 20)
    ring = shapely.Polygon(
        shapely.box(0, 0, 100, 100).exterior, [shapely.box(30, 30, 70, 70).exterior]
    )
    lines = np.array([small.exterior, ring.exterior, *ring.interiors])
    found = widest_circle(
        np.array([small, ring]), lines, least_mm=0.0, tolerance_mm=TOLERANCE_MM
    )
    # 15 in the strips; in a corner between two walls and the hole's corner 2 (30 - r)^2 = r^2
    assert found is not None
    assert found[1] == pytest.approx(60 - np.sqrt(1800), abs=TOLERANCE_MM)


def test_none_is_found_where_one_as_large_is_known() -> None:
    assert _found([shapely.box(0, 0, 20, 20)], [[(0, 10), (1, 10)]], least_mm=10.0) is None


def test_a_line_through_the_very_middle_leaves_halves() -> None:
    """The first square's middle lies on the line, so that it is on no side of it."""
    found = _found([shapely.box(0, 0, 40, 40)], [[(20, 0), (20, 39)]])
    assert found is not None
    assert found[1] == pytest.approx(10.0, abs=TOLERANCE_MM)
