"""Clamshell: rows of half circles like scales."""

import numpy as np
import pytest
import shapely

from stitchpath.geometry.curves import arc_points
from stitchpath.layouts.clamshell import LAYOUT, make
from stitchpath.model.quilt import Quilting
from tests.support.curved_layouts import (
    NEAR_MM,
    circle,
    distance_apart,
    drawn,
    is_drawn,
    mirrored,
    widest_gap,
)
from tests.support.straight_layouts import anchors, clipped, rectangle_ground

GROUND = rectangle_ground(400, 300)
SPEC = Quilting(spacing=80)


def shells(centres: list[tuple[float, float]], radius: float) -> shapely.MultiLineString:
    """Return upper halves of circles."""
    return shapely.MultiLineString(
        [arc_points(centre, radius, np.pi, 2 * np.pi) for centre in centres]
    )


def test_rows_are_half_circles_half_a_shell_apart_and_shifted() -> None:
    centres = [
        (200.0 + 40 * i, 150.0 + 40 * j)
        for i in range(-8, 9)
        for j in range(-5, 6)
        if (i + j) % 2 == 0
    ]
    drawing = drawn(make(GROUND, SPEC), GROUND)
    expected = shells(centres, 40).intersection(GROUND.region)
    assert distance_apart(drawing, expected) < NEAR_MM


def test_a_top_touches_the_valley_of_the_row_above_and_a_foot_is_the_valley_below() -> None:
    first, second, third = (
        shapely.LineString(strand.points) for strand in make(GROUND, SPEC)[3:6]
    )
    valley, foot = shapely.Point(240, 150), shapely.Point(240, 230)
    assert first.distance(valley) < 1e-6
    assert second.distance(valley) < 0.01  # the top of a shell round 240, 190
    assert third.distance(foot) < 1e-6


def test_each_row_is_one_strand_as_many_as_counted_by_hand() -> None:
    # valleys at 150 + 40 j from 0 to 340: 30 to 310 below the upper edge, so 8 rows
    strands = make(GROUND, SPEC)
    assert len(strands) == 8
    assert all(np.ptp(strand.points[:, 0]) >= 400 for strand in strands)
    assert [line[:, 1].max() for line in anchors(strands)] == pytest.approx([150])


def test_fitted_shells_are_cut_cleanly_at_all_edges() -> None:
    # 5 shells by 6 rows: rows of 5 whole shells, and of 4 with half a one at either end
    ground = rectangle_ground(400, 240)
    spec = Quilting(spacing=80, fit=True)
    parts = clipped(make(ground, spec), ground)
    length = sum(shapely.LineString(part).length for part in parts)
    assert length == pytest.approx(6 * 5 * np.pi * 40, rel=1e-3)
    ends = np.concatenate([part[[0, -1]] for part in parts])
    assert ((np.abs(ends[:, 0]) < 1e-6) | (np.abs(ends[:, 0] - 400) < 1e-6)).all()
    assert len(parts) == 6


def test_widest_gap_is_the_largest_circle_in_a_shell() -> None:
    gap = widest_gap(make(GROUND, SPEC), GROUND, shapely.box(110, 100, 290, 200))
    assert gap == pytest.approx(4 / 3 * 40, abs=0.05)


def test_figure_from_the_centre_is_its_own_mirror_image() -> None:
    drawing = drawn(make(GROUND, SPEC), GROUND)
    assert distance_apart(drawing, mirrored(drawing, GROUND)) < NEAR_MM


def test_figure_from_the_edge_has_a_whole_shell_in_the_upper_left_corner() -> None:
    drawing = drawn(make(GROUND, Quilting(spacing=70, start="edge")), GROUND)
    shell = circle(35, 35, 35)
    assert is_drawn(drawing, shell[shell[:, 1] <= 35])


def test_repeat_is_half_a_shell_down_and_a_whole_one_across() -> None:
    assert LAYOUT.repeat is not None
    assert LAYOUT.repeat(Quilting(spacing=70, start="edge")) == (70, 35)
