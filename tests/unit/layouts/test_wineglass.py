"""Wineglass: overlapping circles."""

import numpy as np
import pytest
import shapely

from stitchpath.layouts.wineglass import LAYOUT, make
from stitchpath.model.quilt import Quilting
from tests.support.curved_layouts import (
    NEAR_MM,
    circle,
    distance_apart,
    drawn,
    is_drawn,
    sharpest_turn_deg,
    widest_gap,
)
from tests.support.straight_layouts import anchors, rectangle_ground

GROUND = rectangle_ground(400, 300)
SPEC = Quilting(spacing=80)
CENTRES = np.array(
    [
        (200 + 40 * i, 150 + 40 * j)
        for i in range(-7, 8)
        for j in range(-6, 7)
        if (i + j) % 2 == 0
    ]
)


def test_circles_are_whole_and_there_is_nothing_else() -> None:
    drawing = drawn(make(GROUND, SPEC), GROUND)
    circles = shapely.MultiLineString([circle(x, y, 40) for x, y in CENTRES])
    assert distance_apart(drawing, circles.intersection(GROUND.region)) < NEAR_MM
    inside = [(x, y) for x, y in CENTRES if 40 <= x <= 360 and 40 <= y <= 260]
    assert len(inside) == 5 * 3 + 4 * 2  # hand count: rows of 5 at 70, 150, 230; of 4 between
    for x, y in inside:
        assert is_drawn(drawing, circle(x, y, 40))


def test_circles_stand_on_a_square_grid_of_pitch_r_times_the_root_of_two() -> None:
    # the distance of each centre to its nearest neighbours, and their directions
    away = CENTRES[None] - np.array([200, 150])
    distance = np.hypot(away[..., 0], away[..., 1]).ravel()
    pitch = np.sort(distance)[1:5]
    np.testing.assert_allclose(pitch, 40 * np.sqrt(2))
    # and there they meet: the circle's quarter points are on two circles
    quarters = np.array([(240.0, 150.0), (200, 190), (160, 150), (200, 110)])
    for x, y in quarters:
        touching = np.abs(np.hypot(CENTRES[:, 0] - x, CENTRES[:, 1] - y) - 40) < 1e-9
        assert touching.sum() == 4
    assert is_drawn(drawn(make(GROUND, SPEC), GROUND), quarters)


def test_total_length_is_that_of_the_circles() -> None:
    # fitted to 5 circles by 3: whole ones 5 x 3 + 4 x 2; 2 x 2 + 2 x 4... halves at the edges
    ground = rectangle_ground(400, 240)
    drawing = drawn(make(ground, Quilting(spacing=80, fit=True)), ground)
    whole, halves, quarters = 5 * 3 + 4 * 2, 2 * 4 + 2 * 2, 4
    circles = whole + halves / 2 + quarters / 4
    assert shapely.length(drawing) == pytest.approx(circles * 2 * np.pi * 40, rel=1e-3)


def test_strands_are_counted_by_hand_and_have_no_corner() -> None:
    # rows at 150 + 40 j whose circles reach in: -10 to 310, two waves each
    strands = make(GROUND, SPEC)
    assert len(strands) == 2 * 9
    assert max(sharpest_turn_deg(strand.points) for strand in strands) < 5


def test_both_waves_of_the_middle_row_are_anchors() -> None:
    lines = anchors(make(GROUND, SPEC))
    assert [line[:, 1].mean() for line in lines] == pytest.approx([150, 150], abs=1)
    assert len(lines) == 2


def test_widest_gap_is_that_of_a_circles_middle() -> None:
    gap = widest_gap(make(GROUND, SPEC), GROUND, shapely.box(120, 110, 280, 190))
    assert gap == pytest.approx(2 * 40 * (np.sqrt(2) - 1), abs=0.05)


def test_figure_from_the_edge_has_a_whole_circle_in_the_upper_left_corner() -> None:
    drawing = drawn(make(GROUND, Quilting(spacing=70, start="edge")), GROUND)
    assert is_drawn(drawing, circle(35, 35, 35))
    assert LAYOUT.repeat is not None
    assert LAYOUT.repeat(Quilting(spacing=70, start="edge")) == (70, 70)
