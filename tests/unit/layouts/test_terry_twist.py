"""Terry twist: chains of rings across and down."""

import numpy as np
import pytest
import shapely

from stitchpath.layouts.terry_twist import LAYOUT, make
from stitchpath.model.quilt import Quilting
from tests.support.curved_layouts import (
    drawn,
    is_drawn,
    sharpest_turn_deg,
)
from tests.support.straight_layouts import anchors, rectangle_ground

GROUND = rectangle_ground(250, 150)
SPEC = Quilting(spacing=50, fit=True)  # 5 squares by 3
SQUARES = [(25 + 50 * i, 25 + 50 * j) for i in range(5) for j in range(3)]


def test_two_rings_in_every_square_join_the_middles_of_its_sides() -> None:
    # arcs of a third of a circle over a chord g: radius g / sqrt 3, centres g / (2 sqrt 3) off
    radius, off = 50 / np.sqrt(3), 25 / np.sqrt(3)
    third = np.linspace(-np.pi / 3, np.pi / 3, 41)
    drawing = drawn(make(GROUND, SPEC), GROUND)
    for x, y in SQUARES:
        aside, along = radius * np.cos(third) - off, radius * np.sin(third)
        for sign in (1, -1):
            assert is_drawn(drawing, np.column_stack([x + sign * aside, y + along]))
            assert is_drawn(drawing, np.column_stack([x + along, y + sign * aside]))


def test_total_length_is_that_of_the_rings() -> None:
    drawing = drawn(make(GROUND, SPEC), GROUND)
    arc = 2 * np.pi / 3 * 50 / np.sqrt(3)
    assert shapely.length(drawing) == pytest.approx(15 * 4 * arc, rel=1e-3)


def test_rings_of_a_square_are_linked() -> None:
    # an upright ring and a lying one cross in four points, and nowhere else
    strands = [shapely.LineString(strand.points) for strand in make(GROUND, SPEC)]
    down = [line for line in strands if line.bounds[2] - line.bounds[0] < 40]
    across = [line for line in strands if line.bounds[3] - line.bounds[1] < 40]
    crossings = shapely.intersection(shapely.union_all(down), shapely.union_all(across))
    inside = shapely.intersection(crossings, GROUND.region)
    assert shapely.get_num_geometries(inside) == 4 * len(SQUARES)


def test_strands_are_counted_by_hand_and_have_no_corner() -> None:
    strands = make(GROUND, SPEC)
    assert len(strands) == 2 * 5 + 2 * 3
    assert max(sharpest_turn_deg(strand.points) for strand in strands) < 5


def test_middle_twists_are_anchors_lengthwise_first() -> None:
    lines = anchors(make(GROUND, SPEC))
    assert [line[:, 0].mean() for line in lines[:2]] == pytest.approx([125, 125], abs=1)
    assert [line[:, 1].mean() for line in lines[2:]] == pytest.approx([75, 75], abs=1)
    assert len(lines) == 4


def test_figure_from_the_edge_begins_with_a_whole_square() -> None:
    ground = rectangle_ground(220, 120)
    drawing = drawn(make(ground, Quilting(spacing=50, start="edge")), ground)
    assert is_drawn(drawing, np.array([(0.0, 25.0), (25, 0), (50, 25), (25, 50)]))
    assert LAYOUT.repeat is not None
    assert LAYOUT.repeat(Quilting(spacing=50, start="edge")) == (50, 50)
