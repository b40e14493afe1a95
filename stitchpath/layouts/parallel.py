"""Parallel lines in one direction, also called channel quilting.

Construction: straight lines in the direction of `angle`, `spacing` apart; one runs through the
middle, or the first lies on the left or upper edge; fitted, the outermost lie on both edges.
The line nearest to the middle is the anchor. Source: elementary.
"""

from typing import Final

from stitchpath.geometry.families import parallel_family
from stitchpath.layouts import _waves
from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.model.quilt import Quilting


def family_strands(
    ground: Ground,
    spec: Quilting,
    *,
    angle_deg: float,
    through: tuple[float, float] | None = None,
) -> tuple[Strand, ...]:
    """Return one family of parallel strands, its anchor marked.

    Args:
        ground: Where they lie.
        spec: Its spacing and start.
        angle_deg: Their direction.
        through: Where a strand lies, from the centre; None for the centre itself.
    """
    family = parallel_family(
        ground.region,
        angle_deg=angle_deg,
        spacing_mm=spec.spacing,
        centre=ground.centre,
        start=spec.start,
        through=through,
    )
    return tuple(
        Strand(points=ends, anchor=index == family.middle)
        for index, ends in enumerate(family.ends)
    )


def fitted_origin(ground: Ground, spec: Quilting) -> tuple[float, float]:
    """Return where a line of upright and level families lies: fitted, on the edges."""
    return _waves.find_origin(ground, spec, (spec.spacing, spec.spacing), edge=_waves.ON_EDGE)


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return parallel strands at the chosen angle."""
    through = None if spec.angle % 90 else fitted_origin(ground, spec)
    return family_strands(ground, spec, angle_deg=spec.angle, through=through)


def _repeat(spec: Quilting) -> tuple[float, float]:
    if spec.angle % 90:
        return 0.0, 0.0  # lines across the corners fill nothing evenly
    if spec.angle % 180:
        return _waves.whole_steps(spec, spec.spacing, 0.0)
    return _waves.whole_steps(spec, 0.0, spec.spacing)


LAYOUT: Final = Layout(
    summary="straight lines in one direction",
    make=make,
    keys={
        "spacing": "75 mm",
        "start": "centre",
        "angle": "0, across the width; 90 is down the length",
    },
    repeat=_repeat,
    turns=False,
    is_straight=True,
)
