"""Will hoopings meet where they join?

Measure: what 95 of 100 joins stay below, across the line, at the stage's worst join, from the
maker's placing error, `hoopings.placing_error`; against marks on the piece, or from hooping to
hooping where the marks are sewn. docs/placing.md has the formula.

Limits: a miss of 2 mm is plainly visible (common practice, no source).
"""

from collections.abc import Iterator
from typing import Final

from stitchpath.model.finding import Finding, Level
from stitchpath.model.hooping import Join
from stitchpath.model.plan import VISIBLE_MM, JoinMiss, Plan, Stage
from stitchpath.units import Unit, format_small_length

CODE: Final = "join-miss"


def check(plan: Plan) -> Iterator[Finding]:
    """Say how well each stage's hoopings can be expected to meet."""
    for stage in plan.stages:
        if stage.miss is not None:
            yield _finding(plan, stage, stage.miss)


def _finding(plan: Plan, stage: Stage, miss: JoinMiss) -> Finding:
    rules = plan.project.hoopings
    unit = plan.project.units
    error = f"{format_small_length(rules.placing_error, unit)} a mark"
    chained = rules.sew_marks
    miss_mm, join = (
        (miss.chained_mm, miss.chained_at) if chained else (miss.by_marks_mm, miss.by_marks_at)
    )
    by = format_small_length(miss_mm, unit)
    is_seen = round(miss_mm, 1) > VISIBLE_MM  # as it is told
    if is_seen:
        text = (
            f"hoopings {_both(join)} may miss each other by {by} where they join: "
            f"so much or less in 95 of 100, placed within {error}"
        )
    else:
        text = _meeting(miss, by, unit, chained=chained)
    return Finding(
        code=CODE,
        level=Level.WARNING if is_seen else Level.NOTE,
        text=text,
        help=_remedy(chained=chained) if is_seen else "",
        stage=stage.name,
        where=join.place,
        value=miss_mm,
        limit=VISIBLE_MM,
    )


def _meeting(miss: JoinMiss, by: str, unit: Unit, *, chained: bool) -> str:
    if chained:
        return f"at the worst place 95 of 100 joins miss by less than {by}"
    typical, chain = (
        format_small_length(one, unit) for one in (miss.typical_mm, miss.chained_mm)
    )
    return (
        f"95 of 100 joins miss by less than {typical}, {by} at the worst place; without marks, "
        f"hoops lined up with one another, {chain}"
    )


def _remedy(*, chained: bool) -> str:
    if chained:
        return "draw the marks on the piece instead of sewing them, or refit what slipped"
    return (
        "place the hoop more exactly and refit what slipped, or let marks lie further apart: a "
        "larger field, a larger overlap"
    )


def _both(join: Join) -> str:
    return " and ".join(map(str, join.hoopings))
