"""Serpentine: rows of one wavy line."""

import numpy as np
import pytest
from scipy.special import ellipe

from stitchpath.geometry.points import path_length
from stitchpath.layouts.serpentine import LAYOUT, make
from stitchpath.model.quilt import Quilting
from tests.support.curved_layouts import distance_apart, drawn, half_turned
from tests.support.straight_layouts import rectangle_ground


@pytest.mark.parametrize(("period", "amplitude"), [(80, 10), (80, 60), (200, 3), (30, 15)])
def test_arc_length_is_that_of_the_elliptic_integral(period: float, amplitude: float) -> None:
    # of one period: (2 P / pi) sqrt(1 + k^2) E(k^2 / (1 + k^2)), k = 2 pi A / P; E from scipy
    spec = Quilting(spacing=100, period=period, amplitude=amplitude)
    line = make(rectangle_ground(10 * period, 50), spec)[0].points
    k = 2 * np.pi * amplitude / period
    exact = 2 * period / np.pi * np.sqrt(1 + k**2) * ellipe(k**2 / (1 + k**2))
    periods = (line[-1, 0] - line[0, 0]) / period
    assert path_length(line) / periods == pytest.approx(exact, rel=2e-3)
    assert path_length(line) / periods <= exact


def test_curve_is_within_two_hundredths_of_its_formula() -> None:
    spec = Quilting(spacing=60, period=90, amplitude=25)
    (middle,) = (strand for strand in make(rectangle_ground(400, 300), spec) if strand.anchor)
    x = np.linspace(0, 400, 40_001)
    exact = 150 + 25 * np.sin(2 * np.pi * (x - 200) / 90)
    off_down = np.interp(x, *middle.points.T) - exact
    slope = 25 * 2 * np.pi / 90 * np.cos(2 * np.pi * (x - 200) / 90)
    assert np.abs(off_down / np.hypot(1, slope)).max() < 0.02


def test_rows_from_the_centre_are_symmetric_about_it() -> None:
    ground = rectangle_ground(400, 300)
    drawing = drawn(make(ground, Quilting(spacing=60)), ground)
    assert distance_apart(drawing, half_turned(drawing, ground)) < 0.001


def test_rows_are_counted_by_hand() -> None:
    # rows at 150 + 60 k; a quarter of the spacing, 15, is the amplitude: 30 to 270 reach in
    ground = rectangle_ground(400, 300)
    strands = make(ground, Quilting(spacing=60))
    middles = [(s.points[:, 1].min() + s.points[:, 1].max()) / 2 for s in strands]
    np.testing.assert_allclose(middles, [30, 90, 150, 210, 270], atol=0.01)
    assert [s.anchor for s in strands] == [False, False, True, False, False]


def test_rows_from_the_edge_begin_half_a_spacing_inside() -> None:
    strands = make(rectangle_ground(400, 300), Quilting(spacing=70, start="edge"))
    assert strands[0].points[:, 1].mean() == pytest.approx(35, abs=1)
    crossing = strands[0].points[np.abs(strands[0].points[:, 1] - 35) < 1e-6, 0]
    assert np.abs(crossing).min() < 1e-6  # a wave begins on the left edge


def test_repeat_is_a_whole_wave_and_a_row() -> None:
    assert LAYOUT.repeat is not None
    assert LAYOUT.repeat(Quilting(spacing=60, start="edge")) == (120, 60)
    assert LAYOUT.repeat(Quilting(spacing=60, period=50)) == (25, 30)
