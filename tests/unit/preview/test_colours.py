"""Contrast of text and marks."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.preview.colours import (
    CLOTH,
    DARK_LAY,
    DESIGN,
    HOOP,
    INK,
    NIGHT,
    PAGE,
    RING,
    SOFT_INK,
    contrast,
    hex_colour,
    lay_colour,
    linear_rgb,
)
from stitchpath.preview.ramp import STEPS, order_colours

TEXT_CONTRAST = 4.5
MARK_CONTRAST = 3.0
# Source of both: Web Content Accessibility Guidelines 2.2 (W3C), success criteria 1.4.3 and
# 1.4.11, level AA.

rgb = st.tuples(*[st.integers(0, 255)] * 3).map(lambda c: f"#{c[0]:02x}{c[1]:02x}{c[2]:02x}")


@pytest.mark.parametrize(
    ("one", "other", "ratio"),
    [
        ("#000000", "#ffffff", 21.0),
        ("#ffffff", "#ffffff", 1.0),
        ("#767676", "#ffffff", 4.54),  # the well-known lightest grey for text on white
        ("#777777", "#ffffff", 4.48),  # and its neighbour, which fails
    ],
)
def test_contrast_has_the_known_values(one: str, other: str, ratio: float) -> None:
    # Source: definition of contrast ratio, WCAG 2.2; greys as widely published for it.
    assert contrast(one, other) == pytest.approx(ratio, abs=0.005)
    assert contrast(other, one) == contrast(one, other)


@pytest.mark.parametrize("ground", [PAGE, CLOTH])
@pytest.mark.parametrize("colour", [INK, SOFT_INK, HOOP])
def test_text_stands_out(colour: str, ground: str) -> None:
    assert contrast(colour, ground) >= TEXT_CONTRAST


@pytest.mark.parametrize("ground", [PAGE, CLOTH])
@pytest.mark.parametrize("colour", [INK, SOFT_INK, HOOP, DESIGN, *order_colours(STEPS)])
def test_marks_stand_out(colour: str, ground: str) -> None:
    assert contrast(colour, ground) >= MARK_CONTRAST


def test_the_ring_stands_out_by_its_edge_and_marks_on_it_do_too() -> None:
    assert contrast(HOOP, RING) >= MARK_CONTRAST
    assert contrast(INK, RING) >= MARK_CONTRAST
    assert contrast(NIGHT["hoop"], NIGHT["ring"]) >= MARK_CONTRAST


def test_needle_points_stand_out_from_what_the_thread_lies_on() -> None:
    assert contrast(INK, CLOTH) >= MARK_CONTRAST
    assert contrast(CLOTH, DARK_LAY) >= MARK_CONTRAST


@given(rgb)
def test_every_thread_stands_out_from_what_it_lies_on(thread: str) -> None:
    assert contrast(thread, lay_colour(thread)) >= MARK_CONTRAST


@given(rgb)
def test_a_colour_survives_linear_light(colour: str) -> None:
    assert hex_colour(linear_rgb(colour)) == colour
