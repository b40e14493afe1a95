"""Hanging diamonds: lines down the length, and a slanting set across them.

Construction: vertical lines `spacing` apart, and lines that cross them at `angle`, as far
apart, so that every mesh is a rhombus of height h = `spacing` and side h / sin(angle). At 60
degrees that is the quilter's diamond: h / 0.866 across its blunt corners and 2 h from point to
point. The slant is turned clockwise from the vertical; more than 90 leans it the other way. An
angle of 0 (the project's default) would lay both sets on each other: it is read as 60.

With `count` 2 a second set leans the other way. The slanting lines are then 2 h cos(angle)
apart, so that they cross on the vertical lines: at 60 degrees again h, and the meshes are
equilateral. Near 90 degrees that distance vanishes; below half of h, h is used, and at 90 both
sets are one.

A line of each set runs through the middle, or through the upper left corner; fitted, vertical
lines lie on both edges. The one nearest to the middle is an anchor, the vertical one first.
Source: catbirdquilts.wordpress.com, "Harlequin Diamonds" (2016): strips of 5 in give diamonds
of 5 / .866 in by 10 in; the name: R. S. McKim, "101 Patchwork Patterns" (1931), chapter VI. The
rest is elementary.
"""

from math import cos, radians, sin
from typing import Final

from stitchpath.layouts._groups import grouped_strands
from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.layouts._waves import ACROSS, ON_EDGE, find_lattice, whole_steps
from stitchpath.model.quilt import Quilting

_TRADE_DEG: Final = 60.0
_UPRIGHT_DEG: Final = 90.0
_BOTH: Final = 2


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the vertical set, then one slanting set or two."""
    slant = _slant_deg(spec)
    through = None
    if spec.start == "centre":
        x = find_lattice(ground, spec, spec.spacing, axis=ACROSS, edge=ON_EDGE).origin
        through = (x, ground.centre[1])
    sets = [(0.0, spec.spacing), (slant, _distance_mm(spec))]
    if _has_both(spec):
        sets.append((-slant, _distance_mm(spec)))
    return tuple(
        strand
        for lean, spacing in sets
        for strand in grouped_strands(
            ground, spec, angle_deg=_UPRIGHT_DEG + lean, spacing_mm=spacing, through=through
        )
    )


def _slant_deg(spec: Quilting) -> float:
    """Return the angle between both sets, above 0 and below 180."""
    return spec.angle % 180 or _TRADE_DEG


def _has_both(spec: Quilting) -> bool:
    return spec.count is not None and spec.count >= _BOTH and _slant_deg(spec) != _UPRIGHT_DEG


def _distance_mm(spec: Quilting) -> float:
    """Return the distance between slanting lines, square to them."""
    meeting = 2 * spec.spacing * abs(cos(radians(_slant_deg(spec))))
    return meeting if _has_both(spec) and meeting >= spec.spacing / 2 else spec.spacing


def _repeat(spec: Quilting) -> tuple[float, float]:
    down = _distance_mm(spec) / sin(radians(_slant_deg(spec)))
    return whole_steps(spec, spec.spacing, down)


LAYOUT: Final = Layout(
    summary="slender diamonds: upright lines, and a slanting set",
    make=make,
    keys={
        "spacing": "75 mm",
        "angle": "60 degrees between the sets (0 is read as 60)",
        "count": "1 slanting set; 2 lean both ways",
        "start": "centre",
    },
    repeat=_repeat,
    cut_shows=(True, False),
    turns=False,
    density=lambda spec: 3.0 if _has_both(spec) else 2.0,
    is_straight=True,
)
