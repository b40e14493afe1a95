"""Cable: rows of waves that cross one another."""

import numpy as np
import pytest
import shapely

from stitchpath.layouts.cable import LAYOUT, make
from stitchpath.model.quilt import Quilting
from tests.support.curved_layouts import distance_apart, drawn, half_turned
from tests.support.straight_layouts import anchors, rectangle_ground


def test_two_strands_cross_twice_a_period_on_the_middle_line() -> None:
    ground = rectangle_ground(400, 100)
    first, second = make(ground, Quilting(spacing=100, period=100, amplitude=20))
    both = shapely.intersection(
        shapely.LineString(first.points), shapely.LineString(second.points)
    )
    at = shapely.get_coordinates(both)
    inside = np.sort(at[(at[:, 0] > -1) & (at[:, 0] < 401), 0])
    np.testing.assert_allclose(at[:, 1], 50, atol=1e-6)
    np.testing.assert_allclose(inside, np.arange(0, 401, 50), atol=1e-6)


def test_an_eye_is_as_long_for_its_width_as_published() -> None:
    # "about 1 : 1.4" width to length: C. Gibbs, "Drafting Cable Borders"
    assert LAYOUT.repeat is not None
    spec = Quilting(spacing=90, start="edge")
    first = make(rectangle_ground(800, 90), spec)[0].points
    width = np.ptp(first[:, 1])
    period = LAYOUT.repeat(spec)[0]
    assert width == pytest.approx(60, abs=0.02)
    assert period / 2 / width == pytest.approx(1.4, rel=1e-3)


@pytest.mark.parametrize("count", [1, 2, 3, 4])
def test_strands_are_equal_waves_evenly_shifted(count: int) -> None:
    strands = make(
        rectangle_ground(300, 50), Quilting(spacing=60, count=count, period=120, amplitude=15)
    )
    assert len(strands) == count
    x = np.linspace(0, 300, 301)
    for k, strand in enumerate(strands):
        exact = 25 - 15 * np.sin(2 * np.pi * ((x - 150) / 120 + 0.5 + k / count) - np.pi)
        assert np.abs(np.interp(x, *strand.points.T) + exact - 50).max() < 0.02


@pytest.mark.parametrize("count", [2, 3])
def test_rows_from_the_centre_are_symmetric_about_it(count: int) -> None:
    ground = rectangle_ground(400, 300)
    drawing = drawn(make(ground, Quilting(spacing=60, count=count)), ground)
    assert distance_apart(drawing, half_turned(drawing, ground)) < 0.03


def test_all_strands_of_the_middle_row_are_anchors() -> None:
    strands = make(rectangle_ground(400, 300), Quilting(spacing=60, count=3))
    middles = [(line[:, 1].min() + line[:, 1].max()) / 2 for line in anchors(strands)]
    np.testing.assert_allclose(middles, [150] * 3, atol=0.02)
