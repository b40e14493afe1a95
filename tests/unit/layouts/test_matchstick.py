"""Matchstick quilting."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.layouts.matchstick import LAYOUT, MEAN_MM
from stitchpath.model.quilt import Quilting
from tests.support.straight_layouts import anchors, places, rectangle_ground

GROUND = rectangle_ground(400, 900)


@given(st.integers(0, 1_000_000), st.floats(1, 60), st.sampled_from(["centre", "edge"]))
def test_every_gap_is_two_to_four_thirds_of_the_spacing(
    seed: int, spacing: float, start: str
) -> None:
    spec = Quilting(spacing=spacing, seed=seed, start="edge" if start == "edge" else "centre")
    gaps = np.diff(places(LAYOUT.make(GROUND, spec), 0))
    assert (gaps > spacing * 2 / 3 - 1e-9).all()
    assert (gaps < spacing * 4 / 3 + 1e-9).all()


def test_left_out_the_spacing_is_a_matchstick_between_an_eighth_and_a_quarter_inch() -> None:
    # quiltadvice.com, "What is matchstick quilting?": lines 1/8 in to 1/4 in apart
    gaps = np.diff(places(LAYOUT.make(GROUND, Quilting(spacing=LAYOUT.spacing_mm)), 0))
    assert gaps.min() > 25.4 / 8 - 0.2
    assert gaps.max() < 25.4 / 4


def test_the_gaps_spread_as_an_even_draw_does() -> None:
    gaps = np.diff(places(LAYOUT.make(rectangle_ground(100, 9000), Quilting(spacing=4.5)), 0))
    # the mean and standard deviation of an even draw from 3 to 6: 4.5 and 3 / sqrt(12)
    assert gaps.mean() == pytest.approx(MEAN_MM, abs=0.1)
    assert gaps.std() == pytest.approx(3 / np.sqrt(12), abs=0.05)


def test_lines_reach_both_edges() -> None:
    at = places(LAYOUT.make(GROUND, Quilting(spacing=6)), 0)
    assert at[0] < 8
    assert at[-1] > 900 - 8


def test_another_seed_gives_other_lines_and_the_same_seed_the_same() -> None:
    one, same, other = (
        places(LAYOUT.make(GROUND, Quilting(spacing=5, seed=seed)), 0).tolist()
        for seed in (7, 7, 8)
    )
    assert one == same
    assert one != other


def test_a_larger_piece_has_the_same_lines_about_its_middle() -> None:
    small = places(LAYOUT.make(rectangle_ground(300, 300), Quilting(spacing=5)), 0) - 150
    large = places(LAYOUT.make(rectangle_ground(300, 700), Quilting(spacing=5)), 0) - 350
    inner = large[np.abs(large) <= 150]
    assert inner == pytest.approx(small)


def test_the_line_through_the_middle_is_the_anchor() -> None:
    (anchor,) = anchors(LAYOUT.make(GROUND, Quilting(spacing=5)))
    assert anchor[:, 1].tolist() == [450, 450]


def test_the_first_line_lies_on_the_edge() -> None:
    at = places(LAYOUT.make(GROUND, Quilting(spacing=5, start="edge")), 0)
    assert at[0] == 0


def test_a_spacing_larger_than_the_area_leaves_the_middle_line() -> None:
    assert len(LAYOUT.make(rectangle_ground(30, 30), Quilting(spacing=500))) == 1
