"""Colours of the pictures, and how well they stand out. docs/visual-language.md says why."""

from functools import cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

PAGE: Final = "#ffffff"
CLOTH: Final = "#f5f2ea"
INK: Final = "#22252b"
"""Text, starts, ends, cuts, pauses, arrows."""
SOFT_INK: Final = "#4d535c"
"""Second text and moves without sewing."""
DESIGN: Final = "#7b7f85"
"""Designed lines: the faintest thing that still has to be seen."""
HOOP: Final = "#2f5d8a"
"""Whatever belongs to the hoop: fields, hooping numbers, placement marks."""
RING: Final = "#d3dce6"
"""The hoop's ring: it lies on the cloth and hides it."""
DARK_LAY: Final = "#33373e"
"""What a light thread lies on in a picture."""
UNTOLD: Final = "#4a4a48"
"""A thread whose colour nobody tells, as in most stitch files."""

NIGHT: Final = {
    "page": "#1c1f24",
    "cloth": "#2b2f36",
    "ink": "#eeeae1",
    "soft": "#bcc0c6",
    "design": "#8d929a",
    "hoop": "#8fbde8",
    "ring": "#3c4b5c",
}
"""What stands for page, cloth, ink, soft ink, design, hoop and ring on a dark screen."""

_DARKEST_STEP: Final = 0.04045  # up to here sRGB is straight, with a slope of 12.92


@cache
def lay_colour(thread: str) -> str:
    """Return what a thread lies on in a picture: cloth, or dark where the thread is light.

    Either way the thread stands out with a contrast of at least 3.

    Example:
        >>> lay_colour("#008080") == CLOTH, lay_colour("#faf0e6") == DARK_LAY
        (True, True)
    """
    return max(CLOTH, DARK_LAY, key=lambda lay: contrast(thread, lay))


def contrast(one: str, other: str) -> float:
    """Return the contrast of two colours, from 1 (none) to 21 (black on white).

    Source: Web Content Accessibility Guidelines 2.2 (W3C), definition of contrast ratio.

    Example:
        >>> round(contrast("#000000", "#ffffff"), 6)
        21.0
    """
    darker, lighter = sorted(_luminance(colour) for colour in (one, other))
    return (lighter + 0.05) / (darker + 0.05)


def linear_rgb(colour: str) -> NDArray[np.float64]:
    """Return the linear light of a `#rrggbb` colour, shape (3,), 0 to 1.

    Source: sRGB (IEC 61966-2-1), as quoted in the Web Content Accessibility Guidelines 2.2.
    """
    steps = np.array([int(colour[i : i + 2], 16) for i in (1, 3, 5)]) / 255
    return np.where(steps <= _DARKEST_STEP, steps / 12.92, ((steps + 0.055) / 1.055) ** 2.4)


def hex_colour(linear: NDArray[np.float64]) -> str:
    """Return linear light, shape (3,), as `#rrggbb`; clipped to what sRGB can show."""
    light = np.clip(linear, 0, 1)
    steps = np.where(
        light <= _DARKEST_STEP / 12.92, light * 12.92, 1.055 * light ** (1 / 2.4) - 0.055
    )
    return "#" + "".join(f"{round(step * 255):02x}" for step in steps.tolist())


def _luminance(colour: str) -> float:
    return float(linear_rgb(colour) @ (0.2126, 0.7152, 0.0722))
