"""The colours of order: from dark to light in equal steps of perceived lightness.

The ramp is a straight way in lightness and a turn in hue, in the OKLab space: from aubergine
over brick to ochre. Few steps, each well apart from the next, say more than a smooth blend:
runs are shared out over at most `STEPS` colours and the numbers at their starts tell the rest.

Source of the space: B. Ottosson, "A perceptual color space for image processing", 2020,
bottosson.github.io/posts/oklab, matrices of 2021-01-25.
"""

from functools import cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.preview.colours import hex_colour, linear_rgb

STEPS: Final = 8

_LIGHTNESS: Final = (0.27, 0.63)  # darker has no hue left; lighter would sink into the cloth
_HUE_DEG: Final = (320.0, 440.0)
_CHROMA: Final = 0.115

_TO_CONES: Final = np.array(
    [
        [0.4122214708, 0.5363325363, 0.0514459929],
        [0.2119034982, 0.6806995451, 0.1073969566],
        [0.0883024619, 0.2817188376, 0.6299787005],
    ]
)
_TO_LAB: Final = np.array(
    [
        [0.2104542553, 0.7936177850, -0.0040720468],
        [1.9779984951, -2.4285922050, 0.4505937099],
        [0.0259040371, 0.7827717662, -0.8086757660],
    ]
)


@cache
def order_colours(steps: int) -> tuple[str, ...]:
    """Return `steps` colours from first to last, as `#rrggbb`; one step is the first colour.

    Example:
        >>> len(order_colours(3)), order_colours(1) == order_colours(8)[:1]
        (3, True)
    """
    shares = np.linspace(0, 1, steps) if steps > 1 else np.zeros(1)
    lightness = _LIGHTNESS[0] + shares * (_LIGHTNESS[1] - _LIGHTNESS[0])
    hue = np.radians(_HUE_DEG[0] + shares * (_HUE_DEG[1] - _HUE_DEG[0]))
    return tuple(
        from_oklab(np.array([light, _CHROMA * np.cos(angle), _CHROMA * np.sin(angle)]))
        for light, angle in zip(lightness, hue, strict=True)
    )


def order_steps(count: int) -> NDArray[np.intp]:
    """Return for each of `count` things in order the step of the ramp it belongs to.

    Steps are as equal in size as they can be and there are at most `STEPS` of them.

    Example:
        >>> order_steps(3).tolist(), order_steps(20).tolist()[:5]
        ([0, 1, 2], [0, 0, 0, 1, 1])
    """
    return np.arange(count) * min(count, STEPS) // max(count, 1)


def to_oklab(colour: str) -> NDArray[np.float64]:
    """Return lightness (0 to 1), a and b of a `#rrggbb` colour, shape (3,)."""
    return _TO_LAB @ np.cbrt(_TO_CONES @ linear_rgb(colour))


def from_oklab(lab: NDArray[np.float64]) -> str:
    """Return the `#rrggbb` colour of lightness, a and b, clipped to what sRGB can show."""
    return hex_colour(np.linalg.solve(_TO_CONES, np.linalg.solve(_TO_LAB, lab) ** 3))
