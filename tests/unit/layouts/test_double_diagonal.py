"""The double diagonal."""

import numpy as np
import pytest

from stitchpath.layouts.double_diagonal import LAYOUT
from stitchpath.model.project import Quilting
from tests.support.straight_layouts import (
    anchors,
    as_set,
    clipped,
    places,
    rectangle_ground,
)

GROUND = rectangle_ground(400, 300)


def test_lines_fall_at_45_degrees_in_groups_of_2() -> None:
    strands = LAYOUT.make(GROUND, Quilting(spacing=60, gap=8))
    at = places(strands, 45)
    assert len(at) == len(strands)
    gaps = np.diff(at)
    within = np.isclose(gaps, 8)
    between = np.isclose(gaps, 52)
    assert (within | between).all()
    assert np.diff(np.flatnonzero(between)) == pytest.approx(2)


def test_the_middle_of_a_group_runs_through_the_centre() -> None:
    strands = LAYOUT.make(GROUND, Quilting(spacing=60, gap=8))
    centre = (300 / 2 - 400 / 2) / np.sqrt(2)
    nearest = np.sort(np.abs(places(strands, 45) - centre))[:2]
    assert nearest == pytest.approx([4.0, 4.0])


def test_it_looks_the_same_after_half_a_turn() -> None:
    lines = clipped(LAYOUT.make(GROUND, Quilting(spacing=70)), GROUND)
    assert as_set(lines) == as_set(lines, turned_about=GROUND.centre)


def test_a_group_begins_at_the_upper_left_corner() -> None:
    strands = LAYOUT.make(GROUND, Quilting(spacing=60, gap=8, start="edge"))
    at = places(strands, 45)
    first = np.argmin(np.abs(at))
    assert at[first : first + 3] == pytest.approx([0.0, 8.0, 60.0])


def test_the_default_gap_leaves_most_of_the_spacing_open() -> None:
    strands = LAYOUT.make(GROUND, Quilting(spacing=90))
    assert np.diff(places(strands, 45)).min() == pytest.approx(90 / 6)


def test_the_repeat_brings_the_pattern_back_on_itself() -> None:
    across, down = LAYOUT.repeat(Quilting(spacing=60)) if LAYOUT.repeat else (0, 0)
    assert across == down
    assert across / np.sqrt(2) == pytest.approx(60)  # measured square to the lines


def test_one_line_is_the_anchor() -> None:
    strands = LAYOUT.make(GROUND, Quilting(spacing=60, gap=8))
    assert len(anchors(strands)) == 1


def test_a_spacing_larger_than_the_area_leaves_one_group() -> None:
    assert len(LAYOUT.make(rectangle_ground(40, 30), Quilting(spacing=500, gap=5))) == 2
