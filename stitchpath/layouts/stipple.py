"""Stipple: one line that wanders all over the area closely and never meets itself.

Construction: that of `meander`, with a smaller spacing. Source: elementary.
"""

from typing import Final

from stitchpath.layouts._layout import Layout
from stitchpath.layouts.meander import make

SPACING_MM: Final = 5.0
"""Stippling lies less than 6 mm apart (from memory)."""


LAYOUT: Final = Layout(
    summary="a meander so close that it shades: one wandering line, 6 mm apart or less",
    make=make,
    keys={"spacing": "5 mm", "seed": "1"},
    spacing_mm=SPACING_MM,
)
