"""Stipple: one line that wanders all over the area closely and never meets itself.

Construction: that of `meander`, with a smaller spacing. Source: a quarter of an inch or less
between lines: "Stippling", quiltingassistant.com.
"""

from typing import Final

from stitchpath.layouts._layout import Layout, evenly
from stitchpath.layouts.meander import make

SPACING_MM: Final = 5.0
"""Stippling lies a quarter of an inch apart or less: see above."""


LAYOUT: Final = Layout(
    summary="a meander so close that it shades the ground",
    make=make,
    keys={"spacing": "5 mm", "seed": "1"},
    spacing_mm=SPACING_MM,
    density=evenly(1.2),
)
