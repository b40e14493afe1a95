"""The double and the triple diagonal: slanting lines in pairs and in threes."""

import numpy as np
import pytest

from stitchpath.layouts._layout import Layout
from stitchpath.layouts.double_diagonal import LAYOUT as DOUBLE
from stitchpath.layouts.triple_diagonal import LAYOUT as TRIPLE
from stitchpath.model.quilt import Quilting
from tests.support.straight_layouts import anchors, as_set, clipped, places, rectangle_ground

GROUND = rectangle_ground(400, 300)

each = pytest.mark.parametrize(("layout", "count"), [(DOUBLE, 2), (TRIPLE, 3)])


@each
def test_lines_fall_at_45_degrees_in_groups(layout: Layout, count: int) -> None:
    strands = layout.make(GROUND, Quilting(spacing=60, gap=8))
    at = places(strands, 45)
    assert len(at) == len(strands)
    gaps = np.diff(at)
    within, between = np.isclose(gaps, 8), np.isclose(gaps, 60 - 8 * (count - 1))
    assert (within | between).all()
    assert np.diff(np.flatnonzero(between)) == pytest.approx(count)


@each
def test_the_middle_of_a_group_runs_through_the_centre(layout: Layout, count: int) -> None:
    strands = layout.make(GROUND, Quilting(spacing=60, gap=8))
    centre = (300 / 2 - 400 / 2) / np.sqrt(2)
    nearest = np.sort(np.abs(places(strands, 45) - centre))[:count]
    assert nearest == pytest.approx({2: [4, 4], 3: [0, 8, 8]}[count], abs=1e-9)


@each
def test_it_looks_the_same_after_half_a_turn(layout: Layout, count: int) -> None:
    lines = clipped(layout.make(GROUND, Quilting(spacing=70)), GROUND)
    assert len(lines) >= count
    assert as_set(lines) == as_set(lines, turned_about=GROUND.centre)


@each
def test_a_group_begins_at_the_upper_left_corner(layout: Layout, count: int) -> None:
    strands = layout.make(GROUND, Quilting(spacing=60, gap=8, start="edge"))
    at = places(strands, 45)
    first = np.argmin(np.abs(at))
    assert at[first : first + count + 1] == pytest.approx([*[0, 8, 16][:count], 60], abs=1e-9)


@each
def test_the_default_gap_leaves_most_of_the_spacing_open(layout: Layout, count: int) -> None:
    strands = layout.make(GROUND, Quilting(spacing=90))
    assert np.diff(places(strands, 45)).min() == pytest.approx(90 / (3 * count))


@each
def test_the_repeat_brings_the_pattern_back_on_itself(layout: Layout, count: int) -> None:
    across, down = layout.repeat(Quilting(spacing=60, count=count)) if layout.repeat else (0, 0)
    assert across == down
    assert across / np.sqrt(2) == pytest.approx(60)  # measured square to the lines


@each
def test_one_line_is_the_anchor(layout: Layout, count: int) -> None:
    (anchor,) = anchors(layout.make(GROUND, Quilting(spacing=60, gap=8)))
    away = abs(anchor @ (-1, 1) - (150 - 200)) / np.sqrt(2)
    assert away == pytest.approx({2: 4, 3: 0}[count], abs=1e-9)


@each
def test_a_spacing_larger_than_the_area_leaves_one_group(layout: Layout, count: int) -> None:
    strands = layout.make(rectangle_ground(40, 30), Quilting(spacing=500, gap=5))
    assert len(strands) == count
