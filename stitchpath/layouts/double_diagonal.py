"""Double-diagonal: slanting lines in close pairs.

Construction: lines at 45 degrees in groups of 2; groups are `spacing` apart, from middle to
middle, and the lines of a group `gap` apart. A group runs through the middle, or begins at the
upper left corner. The line nearest to the middle is the anchor. Source: R. S. McKim, "101
Patchwork Patterns" (1931), chapter VI, at 101patchworkpatterns.com: the single diagonal lines
made in sets of two and three are the double and triple diagonals. The default gap is common
practice, no source.
"""

from math import sqrt
from typing import Final

from stitchpath.layouts._groups import GAP_IN_WORDS, grouped_strands
from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.model.project import Quilting

_COUNT: Final = 2


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return pairs of strands that fall from left to right at 45 degrees."""
    return grouped_strands(ground, spec, angle_deg=45.0, spacing_mm=spec.spacing, count=_COUNT)


def _repeat(spec: Quilting) -> tuple[float, float]:
    side = spec.spacing * sqrt(2)
    return side, side


LAYOUT: Final = Layout(
    summary="slanting lines in pairs; angle 90 slants them the other way",
    make=make,
    keys={
        "spacing": "75 mm, from group to group",
        "gap": GAP_IN_WORDS.replace("count", str(_COUNT)),
        "start": "centre",
    },
    repeat=_repeat,
)
