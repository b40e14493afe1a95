"""Meander: one line that wanders all over the area and never meets itself.

Construction: the outline of a random tree over uneven triangles, its corners rounded (see
`_wander`). Passes lie about `spacing` apart; no place of the area is further from the line than
0.8 times that, on the border too, but in tips and necks narrower than a fifth of it. Parts that
only such a neck joins may get a line each. Source: that such lines never cross, and lie
closer in stippling: "Stippling", quiltingassistant.com; the rest is elementary, measured in the
tests.
"""

from typing import Final

from stitchpath.layouts._layout import Ground, Layout, Strand, evenly
from stitchpath.layouts._wander import wander
from stitchpath.model.quilt import Quilting

SPACING_MM: Final = 20.0
"""Meandering lies 12 to 50 mm apart (from memory)."""


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return a closed strand for each part of the area."""
    lines = wander(ground.region, spacing_mm=spec.spacing, seed=spec.seed)
    return tuple(Strand(points=line) for line in lines)


LAYOUT: Final = Layout(
    summary="one rounded line that wanders and never meets itself",
    make=make,
    keys={"spacing": "20 mm", "seed": "1"},
    spacing_mm=SPACING_MM,
    density=evenly(1.2),
)
