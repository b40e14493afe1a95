"""Is every place quilted closely enough for the batting?

Measure: the largest circle on the piece with no stitching inside; its diameter is the widest
unquilted gap. A wrapper's quilting distance is usually told as the side of the largest empty
square; the circle fits inside that, and between parallel lines both are the spacing. The
finished edge counts as sewn: it is turned or bound.

Limits: exact to `GAP_MM`. Lines count as sewn where they are designed; needle points are not
looked at.
"""

from collections.abc import Iterator

import shapely

from stitchpath.geometry.empty_circle import largest_empty_circle
from stitchpath.geometry.tolerance import GAP_MM
from stitchpath.model.finding import Finding, Level
from stitchpath.model.line import LineKind
from stitchpath.model.plan import Plan, Stage
from stitchpath.units import format_length

CODE = "batting-gap"


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
    circle = largest_empty_circle(
        sewn, shapely.Polygon(stage.piece.outline), tolerance_mm=GAP_MM / 2
    )
    gap, limit = 2 * circle.radius, plan.project.batting.quilting_distance
    is_wide = gap > limit + GAP_MM
    unit = plan.project.units
    return Finding(
        code=CODE,
        level=Level.WARNING if is_wide else Level.NOTE,
        text=f"the widest gap on the {stage.piece.name} is {format_length(gap, unit)}; "
        f"the batting allows {format_length(limit, unit)}",
        help=f"make the spacing {format_length(limit, unit)} or less" if is_wide else "",
        stage=stage.name,
        where=circle.centre,
        value=gap,
        limit=limit,
    )
