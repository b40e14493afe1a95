"""Joins as data: how many there are, where, whose, and how far they may miss."""

from collections.abc import Sequence
from typing import Any

from stitchpath.model.plan import Plan, Stage
from stitchpath.preview.rounding import rounded, rounded_pair


def joins_data(stage: Stage) -> dict[str, int]:
    """Return how many joins of a stage lie on crossings of lines, and how many do not."""
    on_crossings = sum(join.is_on_crossing for join in stage.joins)
    return {"on_crossings": on_crossings, "elsewhere": len(stage.joins) - on_crossings}


def each_join_data(plan: Plan, stage: Stage) -> dict[str, list[Any]]:
    """Return a stage's joins as columns of one length, so that thousands of them stay small.

    Args:
        plan: Says whether hoops are lined up with marks on the piece or with one another.
        stage: The stage.
    """
    return {
        "places": [rounded_pair(join.place) for join in stage.joins],
        "hoopings": [list(join.hoopings) for join in stage.joins],
        "is_on_crossing": [join.is_on_crossing for join in stage.joins],
        "expected_miss_mm": [
            None if miss is None else rounded(miss) for miss in misses_of(plan, stage)
        ],
    }


def misses_of(plan: Plan, stage: Stage) -> Sequence[float | None]:
    """Return by how much each of a stage's joins may miss, mm; None where nobody worked it out.

    Lined up from hooping to hooping where the project bastes its marks, else by marks.
    """
    if stage.miss is None or not stage.miss.by_marks_each:
        return [None] * len(stage.joins)
    chained = plan.project.hoopings.sew_marks
    return stage.miss.chained_each if chained else stage.miss.by_marks_each
