"""The chevron."""

import numpy as np
import pytest
import shapely

from stitchpath.geometry.points import path_length
from stitchpath.layouts._layout import Ground
from stitchpath.layouts.chevron import LAYOUT
from stitchpath.model.quilt import Quilting
from tests.support.straight_layouts import anchors, as_set, clipped, rectangle_ground

GROUND = rectangle_ground(400, 300)
SPEC = Quilting(spacing=50, period=80, amplitude=30)


def test_corners_lie_half_a_period_apart_in_turn_above_and_below() -> None:
    for strand in LAYOUT.make(GROUND, SPEC):
        step, rise = np.diff(strand.points, axis=0).T
        assert step == pytest.approx(40)
        assert np.abs(rise) == pytest.approx(60)
        assert (np.sign(rise[1:]) == -np.sign(rise[:-1])).all()


def test_rows_are_spacing_apart_and_reach_over_the_edges() -> None:
    rows = [strand.points[:, 1].mean() for strand in LAYOUT.make(GROUND, SPEC)]
    assert np.diff(rows) == pytest.approx(50)
    # a row is left out only if it lies wholly outside: middles from -30 to 330
    assert len(rows) == 7
    assert all(
        strand.points[0, 0] <= 0 and strand.points[-1, 0] >= 400
        for strand in LAYOUT.make(GROUND, SPEC)
    )


def test_a_peak_stands_over_the_middle_and_its_row_is_the_anchor() -> None:
    (anchor,) = anchors(LAYOUT.make(GROUND, SPEC))
    assert anchor[anchor[:, 0] == 200].tolist() == [[200, 120]]
    assert anchor[:, 1].max() == 180


def test_left_and_right_are_mirrored() -> None:
    lines = clipped(LAYOUT.make(GROUND, SPEC), GROUND)
    mirrored = [line * (-1, 1) + (400, 0) for line in lines]
    assert as_set(lines) == as_set(mirrored)


def test_a_peak_touches_the_upper_left_corner() -> None:
    strands = LAYOUT.make(GROUND, Quilting(spacing=50, period=80, amplitude=30, start="edge"))
    assert any((strand.points == (0, 0)).all(axis=1).any() for strand in strands)


def test_by_default_corners_are_right_angles() -> None:
    (anchor,) = anchors(LAYOUT.make(GROUND, Quilting(spacing=60)))
    one, other = np.diff(anchor, axis=0)[:2]
    assert one @ other == pytest.approx(0)
    assert np.hypot(*one) == pytest.approx(60 * np.sqrt(2))


def test_a_row_is_as_long_as_its_slopes() -> None:
    (anchor,) = anchors(LAYOUT.make(GROUND, SPEC))
    # 400 mm are 10 slopes, each the hypotenuse of 40 by 60 (Pythagoras)
    inside = clipped((next(s for s in LAYOUT.make(GROUND, SPEC) if s.anchor),), GROUND)
    assert sum(map(path_length, inside)) == pytest.approx(10 * np.hypot(40, 60))
    assert len(anchor) >= 11


def test_it_repeats_by_period_and_spacing() -> None:
    assert LAYOUT.repeat is not None
    assert LAYOUT.repeat(SPEC) == (40, 25)  # twice that to the side
    assert LAYOUT.repeat(Quilting(spacing=60, start="edge")) == (120, 60)


def test_an_area_between_two_rows_gets_no_line() -> None:
    ground = Ground(region=shapely.box(0, 20, 400, 25), frame=(0, 0, 400, 300))
    assert LAYOUT.make(ground, Quilting(spacing=100, amplitude=1)) == ()


def test_fitted_rows_lie_half_a_spacing_inside_the_edges() -> None:
    """Six rows of 50 on 300; five periods of 80 on 400, a peak in the middle of each."""
    fitted = LAYOUT.make(GROUND, Quilting(spacing=50, period=80, amplitude=20, fit=True))
    rows = [strand.points[:, 1].mean() for strand in fitted]
    assert rows == pytest.approx(np.arange(25, 300, 50), abs=2)
    peaks = fitted[0].points[fitted[0].points[:, 1] < 25, 0]
    assert peaks[(peaks > 0) & (peaks < 400)] == pytest.approx(np.arange(40, 400, 80))
