"""Is every place quilted closely enough for the batting?

Measure: the largest circle on the piece with no stitching inside; its diameter is the widest
unquilted gap. A wrapper's quilting distance is usually told as the side of the largest empty
square (see docs/sources.md); the side of the largest square round the circle's centre is told
beside it. It is never more than the circle's diameter, and between parallel lines both are the
spacing. The finished edge counts as sewn: it is turned or bound.

The spacing that is advised lessens each too wide layout in proportion to its own widest gap,
rounded down to what a ruler shows.

Limits: `batting.quilting_distance`; exact to `GAP_MM`. Lines count as sewn where they are
designed; needle points are not looked at. Gaps that margins leave do not shrink with spacing.
"""

from collections.abc import Iterator
from math import floor
from typing import Final

import shapely

from stitchpath.geometry.empty_circle import largest_empty_circle
from stitchpath.geometry.empty_square import empty_square_side
from stitchpath.geometry.tolerance import GAP_MM
from stitchpath.model.finding import Finding, Level
from stitchpath.model.line import LineKind
from stitchpath.model.plan import Plan, Stage
from stitchpath.units import MM_PER, Unit, format_length

CODE = "batting-gap"
_STEPS_MM: Final[dict[Unit, float]] = {"mm": 1.0, "cm": 1.0, "in": MM_PER["in"] / 8}
"""What a spacing is rounded down to."""


def check(plan: Plan) -> Iterator[Finding]:
    """Say how wide the widest gap of each quilted piece is, against what the batting allows."""
    for stage in plan.stages:
        if stage.name == "seam":
            continue
        if any(line.kind is LineKind.QUILTING for line in stage.lines):
            yield _widest(plan, stage)
        else:
            yield Finding(
                code=CODE,
                level=Level.NOTE,
                text=f"the {stage.piece.name} is not quilted here; its batting is not checked",
                stage=stage.name,
            )


def _widest(plan: Plan, stage: Stage) -> Finding:
    sewn = [
        line.points
        for other in plan.stages
        if other.piece.name == stage.piece.name
        for line in other.lines
    ]
    outline = stage.piece.outline
    circle = largest_empty_circle(sewn, shapely.Polygon(outline), tolerance_mm=GAP_MM / 2)
    side = empty_square_side([*sewn, outline], circle.centre)
    gap, limit = 2 * circle.radius, plan.project.batting.quilting_distance
    is_wide = gap > limit + GAP_MM
    unit = plan.project.units
    return Finding(
        code=CODE,
        level=Level.WARNING if is_wide else Level.NOTE,
        text=f"the widest gap on the {stage.piece.name} is {format_length(gap, unit)}, with "
        f"room for a square of {format_length(min(side, gap), unit)}; the batting allows "
        f"{format_length(limit, unit)}",
        help=_closer(stage, limit, unit) if is_wide else "",
        stage=stage.name,
        where=circle.centre,
        value=gap,
        limit=limit,
    )


def _closer(stage: Stage, limit: float, unit: Unit) -> str:
    """Return the advice: the widest spacing of each layout that would pass."""
    step = _STEPS_MM[unit]
    told = []
    for layout in stage.layouts:
        spacing = (
            floor(layout.spacing_mm * limit / max(layout.widest_gap_mm, step) / step) * step
        )
        if layout.widest_gap_mm > limit and spacing > 0:
            told.append(
                f"make the spacing of {layout.name} {format_length(spacing, unit)} or less"
            )
    return "; ".join(told) or "make margins smaller, or lay another layout there"
