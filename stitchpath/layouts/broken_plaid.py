"""Broken plaid: two crossing sets of lines in groups, as in a woven plaid.

Construction: lines down the length and across the width in groups of `count`, `gap` apart;
groups are `spacing` apart, from middle to middle. A group of each set runs through the middle,
or begins at the upper left corner; fitted, the edges lie halfway between groups. Angle 45 sets
the plaid on a corner, as hand quilters did.
The line of each set that is nearest to the middle is an anchor, the lengthwise one first.
Source: R. S. McKim, "101 Patchwork Patterns" (1931), chapter VI, at 101patchworkpatterns.com:
lines crossed as for diamonds, but "differently spaced". The default gap is common practice, no
source.
"""

from typing import Final

from stitchpath.layouts import _waves
from stitchpath.layouts._groups import GAP_IN_WORDS, group_size, grouped_strands
from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.model.quilt import Quilting

_PAIRS: Final = 2


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return both sets, the lengthwise one first."""
    through = None
    if spec.start == "centre":
        steps = spec.spacing, spec.spacing
        through = _waves.find_origin(ground, spec, steps, edge=_waves.BETWEEN)
    return tuple(
        strand
        for turn in (90.0, 0.0)
        for strand in grouped_strands(
            ground,
            spec,
            angle_deg=turn,
            spacing_mm=spec.spacing,
            count=_count(spec),
            through=through,
        )
    )


def _count(spec: Quilting) -> int:
    return _PAIRS if spec.count is None else spec.count


LAYOUT: Final = Layout(
    summary="two sets of lines in close groups that cross, as in plaid",
    make=make,
    keys={
        "spacing": "75 mm, from group to group",
        "count": "2 lines to a group",
        "gap": GAP_IN_WORDS,
        "start": "centre",
        "angle": "0; 45 stands it on a corner",
    },
    repeat=_waves.whole_squares,
    density=lambda spec: 2.0 * group_size(_count(spec), spec.spacing),
    is_straight=True,
)
