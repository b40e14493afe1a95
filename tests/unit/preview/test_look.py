"""Sizes of pictures."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.preview.colours import CLOTH, INK
from stitchpath.preview.look import Look, choose_look
from stitchpath.preview.polylines import Polylines


def rows(count: int, apart: float, stitch: float = 2.5) -> Polylines:
    """Return level lines of 200 mm."""
    x = np.arange(0, 200, stitch)
    return Polylines.of(np.column_stack([x, 0 * x + i * apart]) for i in range(count))


def look(strands: Polylines, side: float, *, sign: float = math.inf) -> Look:
    return choose_look(
        strands, longer_side_mm=side, widest_mark_mm=sign, thread_colour="#008080"
    )


@given(st.floats(20, 10_000))
def test_text_is_readable_on_screen_and_on_paper(side: float) -> None:
    sizes = look(rows(2, 90), side)
    # Common practice, no source: 6 point (2.1 mm) is the smallest print for daily use, and ten
    # pixels the smallest letter on a screen that shows the drawing 700 pixels high.
    assert sizes.text >= 2.1
    assert sizes.text / side * 700 >= 10
    assert 0.8 * sizes.sign >= 2.1


def test_what_lies_along_the_thread_leaves_room_between_close_lines() -> None:
    dense, wide = look(rows(40, 5), 300), look(rows(3, 90), 300)
    assert dense.band < 0.5 * 5
    assert dense.mark <= 5.2
    assert dense.band < wide.band
    assert dense.sign == wide.sign == wide.mark


@given(st.floats(0.5, 12))
def test_needle_points_do_not_run_together(stitch: float) -> None:
    assert look(rows(3, 90, stitch), 1500).dot < 0.5 * stitch


def test_the_thread_lies_within_its_lay_within_the_band() -> None:
    sizes = look(rows(3, 90), 300)
    assert sizes.thread < sizes.lay < sizes.band
    assert sizes.thread < sizes.dot


def test_signs_are_held_to_the_fields() -> None:
    assert look(rows(3, 90), 3000, sign=15).sign == 15


def test_nothing_sewn_still_has_sizes() -> None:
    sizes = look(Polylines.of([]), 300)
    assert math.isfinite(sizes.mark)
    assert math.isfinite(sizes.band)
    assert math.isfinite(sizes.dot)


def test_a_light_thread_has_light_needle_points_on_a_dark_lay() -> None:
    dark = look(rows(2, 90), 300)
    light = choose_look(
        rows(2, 90), longer_side_mm=300, widest_mark_mm=99, thread_colour="#ffffff"
    )
    assert (dark.dot_colour, light.dot_colour) == (INK, CLOTH)
    assert light.lay_colour != CLOTH == dark.lay_colour


def test_samples_are_as_large_as_text_whatever_the_drawing() -> None:
    assert look(rows(40, 5), 300).for_legend() == look(rows(3, 90), 300).for_legend()
    assert look(rows(3, 90), 300).for_legend().mark == pytest.approx(300 / 66)
