"""The colours of order."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray

from stitchpath.preview.colours import hex_colour, linear_rgb
from stitchpath.preview.ramp import STEPS, from_oklab, order_colours, order_steps, to_oklab

# Source: Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of
# Color Vision Deficiency", IEEE TVCG 15(6), 2009, doi 10.1109/TVCG.2009.113: deuteranomaly
# of severity 1.0, on linear RGB.
DEUTERANOPIA = np.array(
    [
        [0.367322, 0.860646, -0.227968],
        [0.280085, 0.672501, 0.047413],
        [-0.011820, 0.042940, 0.968881],
    ]
)
# Common practice, no source: a difference of 2.3 in CIELAB, or about 0.02 in OKLab, is just
# noticed; neighbours are kept at more than twice that.
CLEAR_CIELAB = 5.0
CLEAR_OKLAB = 0.045


def cie_lightness(colour: str) -> float:
    """Return CIE 1976 L*, 0 to 100. Source: CIE 15, by way of relative luminance."""
    luminance = float(linear_rgb(colour) @ (0.2126, 0.7152, 0.0722))
    return (
        116 * luminance ** (1 / 3) - 16 if luminance > 216 / 24389 else luminance * 24389 / 27
    )


def seen_by_deuteranopes(colour: str) -> NDArray[np.float64]:
    return to_oklab(hex_colour(DEUTERANOPIA @ linear_rgb(colour)))


@pytest.mark.parametrize(
    ("colour", "lab"),
    [
        # Source: web-platform-tests, css/css-color/oklab-001.html: sRGB #008000 in OKLab.
        ("#008000", (0.51975, -0.1403, 0.10768)),
        # White has lightness 1 and no hue by the definition of the space.
        ("#ffffff", (1.0, 0.0, 0.0)),
        ("#000000", (0.0, 0.0, 0.0)),
    ],
)
def test_oklab_has_the_published_values(colour: str, lab: tuple[float, ...]) -> None:
    assert to_oklab(colour) == pytest.approx(lab, abs=5e-5)
    assert from_oklab(np.array(lab)) == colour


@given(st.integers(2, STEPS))
def test_lightness_grows_by_equal_steps(steps: int) -> None:
    light = np.array([to_oklab(colour)[0] for colour in order_colours(steps)])
    assert np.diff(light) == pytest.approx(np.diff(light).mean(), abs=0.003)
    assert np.diff(light).min() > CLEAR_OKLAB


def test_neighbours_differ_in_grey() -> None:
    light = [cie_lightness(colour) for colour in order_colours(STEPS)]
    assert np.diff(light).min() > CLEAR_CIELAB


def test_neighbours_differ_for_deuteranopes() -> None:
    seen = np.array([seen_by_deuteranopes(colour) for colour in order_colours(STEPS)])
    assert np.diff(seen[:, 0]).min() > CLEAR_OKLAB
    assert np.hypot(*np.diff(seen, axis=0)[:, :2].T).min() > CLEAR_OKLAB


def test_every_colour_can_be_shown() -> None:
    # Clipping to sRGB would bend the ramp: what comes back is what was asked for.
    first, last = (to_oklab(colour) for colour in (order_colours(2)[0], order_colours(2)[1]))
    assert np.hypot(*first[1:]) == pytest.approx(np.hypot(*last[1:]), abs=0.003)


@given(st.integers(0, 500))
def test_steps_are_in_order_and_equally_large(count: int) -> None:
    steps = order_steps(count)
    assert len(steps) == count
    if count:
        sizes = np.bincount(steps)
        assert (np.diff(steps) >= 0).all()
        assert len(sizes) == min(count, STEPS)
        assert sizes.max() - sizes.min() <= 1
