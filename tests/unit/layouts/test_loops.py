"""Loops: rows of a line that loops at every period."""

import numpy as np
import pytest
import shapely
from scipy.special import ellipe

from stitchpath.geometry.points import path_length
from stitchpath.layouts.loops import LAYOUT, make
from stitchpath.model.quilt import Quilting
from tests.support.curved_layouts import distance_apart, drawn, mirrored
from tests.support.straight_layouts import rectangle_ground


@pytest.mark.parametrize(("period", "amplitude"), [(60, 24), (60, 60), (60, 4), (60, 9.55)])
def test_arc_length_is_that_of_the_elliptic_integral(period: float, amplitude: float) -> None:
    # of one period of a trochoid: 4 (a + b) E(4 a b / (a + b)^2), a = P / 2 pi, b = A
    spec = Quilting(spacing=200, period=period, amplitude=amplitude)
    line = make(rectangle_ground(600, 50), spec)[0].points
    a = period / (2 * np.pi)
    exact = 4 * (a + amplitude) * ellipe(4 * a * amplitude / (a + amplitude) ** 2)
    periods = (line[-1, 0] - line[0, 0]) / period
    assert path_length(line) / periods == pytest.approx(exact, rel=2e-3)


def test_it_crosses_itself_once_a_period_where_the_amplitude_is_large_enough() -> None:
    # loops where A > P / 2 pi = 9.549; 5 loops from the edge in 300 / 60
    ground = rectangle_ground(300, 100)
    spec = Quilting(spacing=100, period=60, amplitude=24, start="edge")
    drawing = drawn(make(ground, spec), ground)
    closed = shapely.get_parts(shapely.polygonize(shapely.get_parts(shapely.node(drawing))))
    assert len(closed) == 5
    middles = shapely.get_x(shapely.centroid(closed))
    np.testing.assert_allclose(np.sort(middles), [30, 90, 150, 210, 270], atol=0.01)


@pytest.mark.parametrize(("amplitude", "is_simple"), [(9.4, True), (9.9, False)])
def test_a_small_amplitude_gives_waves_without_loops(
    amplitude: float, *, is_simple: bool
) -> None:
    spec = Quilting(spacing=100, period=60, amplitude=amplitude)
    line = make(rectangle_ground(300, 100), spec)[0].points
    assert shapely.LineString(line).is_simple is is_simple


def test_a_loop_stands_above_the_centre() -> None:
    ground = rectangle_ground(400, 300)
    strands = make(ground, Quilting(spacing=60))
    drawing = drawn(strands, ground)
    assert distance_apart(drawing, mirrored(drawing, ground)) < 0.03
    (middle,) = (strand.points for strand in strands if strand.anchor)
    top = middle[np.abs(middle[:, 0] - 200) < 1e-6]
    assert top[:, 1].min() == pytest.approx(150 - 24, abs=0.01)  # 0.4 of the spacing up


def test_rows_are_counted_by_hand() -> None:
    # rows at 150 + 60 k, 24 either way: 30 to 270 reach in
    strands = make(rectangle_ground(400, 300), Quilting(spacing=60))
    middles = [(s.points[:, 1].min() + s.points[:, 1].max()) / 2 for s in strands]
    np.testing.assert_allclose(middles, [30, 90, 150, 210, 270], atol=0.01)


def test_repeat_is_a_loop_and_a_row() -> None:
    assert LAYOUT.repeat is not None
    assert LAYOUT.repeat(Quilting(spacing=60, period=40, start="edge")) == (40, 60)
