"""The broken plaid."""

import pytest

from stitchpath.layouts.broken_plaid import LAYOUT
from stitchpath.model.quilt import Quilting
from tests.support.straight_layouts import anchors, as_set, clipped, places, rectangle_ground

GROUND = rectangle_ground(300, 200)


def test_pairs_cross_pairs() -> None:
    strands = LAYOUT.make(GROUND, Quilting(spacing=100, gap=20))
    assert places(strands, 90).tolist() == [40, 60, 140, 160, 240, 260]
    assert places(strands, 0).tolist() == [10, 90, 110, 190]
    assert len(strands) == 6 + 4


def test_threes_cross_threes() -> None:
    strands = LAYOUT.make(GROUND, Quilting(spacing=100, gap=10, count=3))
    assert places(strands, 0).tolist() == [0, 10, 90, 100, 110, 190, 200]


def test_a_count_of_one_is_a_crosshatch() -> None:
    strands = LAYOUT.make(GROUND, Quilting(spacing=100, count=1))
    assert places(strands, 90).tolist() == [50, 150, 250]
    assert places(strands, 0).tolist() == [0, 100, 200]


def test_pairs_begin_at_the_upper_left_corner() -> None:
    strands = LAYOUT.make(GROUND, Quilting(spacing=90, gap=15, start="edge"))
    assert places(strands, 90).tolist() == [0, 15, 90, 105, 180, 195, 270, 285]
    assert places(strands, 0).tolist() == [0, 15, 90, 105, 180, 195]


def test_it_looks_the_same_after_half_a_turn() -> None:
    lines = clipped(LAYOUT.make(GROUND, Quilting(spacing=70, count=3)), GROUND)
    assert as_set(lines) == as_set(lines, turned_about=GROUND.centre)


def test_one_line_of_each_set_is_an_anchor_the_lengthwise_one_first() -> None:
    lengthwise, crosswise = anchors(LAYOUT.make(GROUND, Quilting(spacing=100, gap=20)))
    assert lengthwise[0, 0] == lengthwise[1, 0] == pytest.approx(150, abs=10)
    assert crosswise[0, 1] == crosswise[1, 1] == pytest.approx(100, abs=10)


def test_it_repeats_from_group_to_group() -> None:
    assert LAYOUT.repeat is not None
    assert LAYOUT.repeat(Quilting(spacing=80, count=3, start="edge")) == (80, 80)


def test_fitted_edges_lie_halfway_between_groups() -> None:
    """Three groups of 100 on 300, two on 200: 50 from each edge to the middle of a group."""
    strands = LAYOUT.make(GROUND, Quilting(spacing=100, gap=20, fit=True))
    assert places(strands, 90).tolist() == [40, 60, 140, 160, 240, 260]
    assert places(strands, 0).tolist() == [40, 60, 140, 160]
