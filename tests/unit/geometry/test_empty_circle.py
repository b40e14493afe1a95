"""The widest place that no line reaches, on figures whose answer is elementary geometry."""

import numpy as np
import pytest
import shapely

from stitchpath.geometry.empty_circle import largest_empty_circle
from stitchpath.geometry.points import Points

TOLERANCE_MM = 0.1
SQUARE = shapely.box(0, 0, 100, 100)


def _widest(lines: list[Points], region: shapely.Polygon = SQUARE) -> float:
    return 2 * largest_empty_circle(lines, region, tolerance_mm=TOLERANCE_MM).radius


def _upright(*at: float) -> list[Points]:
    return [np.array([[x, -10.0], [x, 110.0]]) for x in at]


def _level(*at: float) -> list[Points]:
    return [np.array([[-10.0, y], [110.0, y]]) for y in at]


def test_with_nothing_but_its_edge_a_square_is_as_wide_as_its_side() -> None:
    assert _widest([]) == pytest.approx(100, abs=2 * TOLERANCE_MM)


def test_between_parallel_lines_the_gap_is_their_spacing() -> None:
    assert _widest(_upright(20, 40, 60, 80)) == pytest.approx(20, abs=2 * TOLERANCE_MM)


def test_in_crosshatch_the_gap_is_the_side_of_a_square() -> None:
    lines = _upright(25, 50, 75) + _level(25, 50, 75)
    assert _widest(lines) == pytest.approx(25, abs=2 * TOLERANCE_MM)


def test_uneven_lines_leave_their_widest_strip() -> None:
    found = largest_empty_circle(_upright(10, 50, 60, 90), SQUARE, tolerance_mm=TOLERANCE_MM)
    assert 2 * found.radius == pytest.approx(40, abs=2 * TOLERANCE_MM)
    assert found.centre[0] == pytest.approx(30, abs=2 * TOLERANCE_MM)


def test_a_right_triangle_holds_a_circle_of_half_its_legs_less_its_long_side() -> None:
    """Inradius of a right triangle: (a + b - c) / 2, elementary."""
    diagonal = [np.array([[0.0, 0.0], [100.0, 100.0]])]
    assert _widest(diagonal) == pytest.approx(200 - 100 * np.sqrt(2), abs=2 * TOLERANCE_MM)


def test_a_loose_end_counts_as_sewn() -> None:
    """A line from the edge to the middle of a square of 100.

    The circle touches its tip and the two sides of a far corner: r + r * sqrt 2 = 50 * sqrt 2.
    """
    half = [np.array([[50.0, 0.0], [50.0, 50.0]])]
    radius = 50 * np.sqrt(2) / (1 + np.sqrt(2))
    assert _widest(half) == pytest.approx(2 * radius, abs=2 * TOLERANCE_MM)


def test_a_line_that_touches_nothing_counts_as_sewn() -> None:
    lonely = [np.array([[50.0, 20.0], [50.0, 80.0]])]
    assert _widest(lonely) == pytest.approx(50, abs=2 * TOLERANCE_MM)


def test_a_ring_inside_leaves_the_wider_of_its_inside_and_the_band_round_it() -> None:
    ring = [np.array([[30.0, 30.0], [70, 30], [70, 70], [30, 70], [30, 30]])]
    found = largest_empty_circle(ring, SQUARE, tolerance_mm=TOLERANCE_MM)
    # in a corner: r + r * sqrt 2 = the distance from corner to ring corner, 30 * sqrt 2
    corner = 2 * 30 * np.sqrt(2) / (1 + np.sqrt(2))
    assert 2 * found.radius == pytest.approx(max(40, corner), abs=2 * TOLERANCE_MM)


def test_lines_outside_the_region_count_for_nothing() -> None:
    outside = [np.array([[200.0, 0.0], [200.0, 100.0]])]
    assert _widest(outside) == pytest.approx(100, abs=2 * TOLERANCE_MM)


def test_the_search_round_a_loose_line_is_as_exact_as_asked_for() -> None:
    """A short line from (22, 22) to (22, 27); the circle lies in the far corner.

    It touches two sides and the line's end: (78 - r)^2 + (73 - r)^2 = r^2, so
    r = 151 - sqrt(151^2 - 78^2 - 73^2).
    """
    lonely = [np.array([[22.0, 27.0], [22.0, 22.0]])]
    found = largest_empty_circle(lonely, SQUARE, tolerance_mm=0.05)
    assert found.radius == pytest.approx(151 - np.sqrt(151**2 - 78**2 - 73**2), abs=0.05)


def test_a_wide_figure_outside_the_region_is_no_gap_of_it() -> None:
    """A closed square of 300 beside a region that is quilted every 10 mm."""
    beside = np.array([[200.0, 0.0], [500, 0], [500, 300], [200, 300], [200, 0]])
    assert _widest([beside, *_upright(*range(10, 100, 10))]) == pytest.approx(10, abs=0.2)


def test_a_figure_outside_the_region_does_not_stand_for_the_same_one_inside() -> None:
    """All are 40 wide squares, those outside drawn first; the rest is quilted every 10."""
    square = np.array([[0.0, 0.0], [40, 0], [40, 40], [0, 40], [0, 0]])
    close = _upright(*range(10, 100, 10)) + _level(*range(10, 100, 10))
    around = shapely.difference(shapely.MultiLineString(close), shapely.box(29, 29, 71, 71))
    lines = [shapely.get_coordinates(part) for part in shapely.get_parts(around)]
    for outside in range(1, 8):  # faces are looked at in batches: one, two, four, ...
        beside = [square - (100 * number, 0) for number in range(1, outside + 1)]
        widest = _widest([*beside, np.add(square, 30), *lines])
        assert widest == pytest.approx(40, abs=0.2)


@pytest.mark.parametrize("upright", [False, True])
def test_a_long_crooked_face_is_searched_whole(*, upright: bool) -> None:
    """Two waves 10 apart along 3,000 mm, and one place in them 40 wide."""
    along = np.linspace(0, 3000, 1501)
    wave = np.sin(along / 5)
    bulge = np.where(np.abs(along - 2010) < 25, 15.0, 0.0)
    beside = [*range(1, 25, 3), *range(76, 100, 3)]
    lines = [
        np.column_stack([along, 55 + wave + bulge]),
        np.column_stack([along, 45 - wave - bulge]),
        *(np.column_stack([along, np.full_like(along, at)]) for at in beside),
    ]
    region = shapely.box(0, 0, 3000, 100)
    if upright:
        lines, region = [line[:, ::-1] for line in lines], shapely.box(0, 0, 100, 3000)
    found = largest_empty_circle(lines, region, tolerance_mm=TOLERANCE_MM)
    assert 2 * found.radius == pytest.approx(40, abs=2)
    assert found.centre[1 if upright else 0] == pytest.approx(2010, abs=10)
