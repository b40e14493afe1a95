"""Orange peel: petals on every side of a grid of squares."""

import numpy as np
import pytest
import shapely

from stitchpath.layouts.orange_peel import LAYOUT, make
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

GROUND = rectangle_ground(200, 150)
SPEC = Quilting(spacing=50)
RISE = 25 * (np.sqrt(2) - 1)  # of a quarter arc over a chord of 50 (elementary)


def test_every_side_of_a_square_has_an_arc_on_either_side() -> None:
    # crossings at 100 + 50 i, 75 + 50 j
    drawing = drawn(make(GROUND, SPEC), GROUND)
    sides_across = [(25 + 50 * i, 25 + 50 * j) for i in range(4) for j in range(3)]
    sides_down = [(50 * i, 50 + 50 * j) for i in range(1, 4) for j in range(2)]
    assert is_drawn(drawing, np.array([(x, y - RISE) for x, y in sides_across]))
    assert is_drawn(drawing, np.array([(x, y + RISE) for x, y in sides_across]))
    assert is_drawn(drawing, np.array([(x - RISE, y) for x, y in sides_down]))
    assert is_drawn(drawing, np.array([(x + RISE, y) for x, y in sides_down]))


def test_the_arcs_make_up_the_whole_circles_round_the_squares_and_nothing_else() -> None:
    # squares round (25 + 50 i, 50 + 50 j); a square of side d / sqrt 2 lies in a circle of
    # diameter d: "Circle Patchwork", reddawn.net
    squares = [(25 + 50 * i, 50 * j) for i in range(-1, 5) for j in range(-1, 5)]
    circles = shapely.MultiLineString([circle(x, y, 50 / np.sqrt(2)) for x, y in squares])
    drawing = drawn(make(GROUND, SPEC), GROUND)
    assert distance_apart(drawing, circles.intersection(GROUND.region)) < NEAR_MM


def test_strands_are_counted_by_hand_and_have_no_corner() -> None:
    # grid lines down that reach in: 0 to 200; across: -25 + RISE < 0, so 25 to 125
    strands = make(GROUND, SPEC)
    assert len(strands) == 2 * 5 + 2 * 3
    assert max(sharpest_turn_deg(strand.points) for strand in strands) < 5


def test_both_waves_of_both_middle_lines_are_anchors_lengthwise_first() -> None:
    lines = anchors(make(rectangle_ground(200, 200), SPEC))
    assert [np.ptp(line[:, 0]) < np.ptp(line[:, 1]) for line in lines] == [True] * 2 + [
        False
    ] * 2
    assert all(
        abs((line[:, 0].min() + line[:, 0].max()) / 2 - 100) < 0.02 for line in lines[:2]
    )
    assert all(
        abs((line[:, 1].min() + line[:, 1].max()) / 2 - 100) < 0.02 for line in lines[2:]
    )


def test_widest_gap_is_that_of_a_square_with_hollow_sides() -> None:
    gap = widest_gap(make(GROUND, SPEC), GROUND, shapely.box(50, 25, 150, 125))
    assert gap == pytest.approx((2 - np.sqrt(2)) * 50, abs=0.05)


def test_figure_from_the_edge_has_grid_lines_on_the_upper_left_corner() -> None:
    strands = make(rectangle_ground(210, 160), Quilting(spacing=50, start="edge"))
    drawing = drawn(strands, rectangle_ground(210, 160))
    assert is_drawn(drawing, np.array([(25.0, RISE), (RISE, 25.0), (50.0, 50.0)]))


def test_fitted_grid_lines_lie_on_all_edges_for_odd_and_even_counts() -> None:
    strands = make(GROUND, Quilting(spacing=50, fit=True))  # 4 squares by 3
    drawing = drawn(strands, GROUND)
    assert is_drawn(
        drawing, np.array([(25.0, RISE), (175, 150 - RISE), (RISE, 75), (100, 100)])
    )
    assert LAYOUT.repeat is not None
    assert LAYOUT.repeat(SPEC) == (25, 25)  # twice that to the side, so 50 and 50
