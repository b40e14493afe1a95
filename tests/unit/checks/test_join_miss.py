"""Joins that will be seen to miss are warned of, with what helps."""

from dataclasses import replace

from stitchpath.checks.join_miss import check
from stitchpath.model.finding import Finding, Level
from stitchpath.model.hooping import Join
from stitchpath.model.plan import JoinMiss, Plan
from tests.support.plans import small_plan

ONE = Join(place=(180, 60), hoopings=(1, 2), is_on_crossing=True)
OTHER = Join(place=(60, 240), hoopings=(1, 3), is_on_crossing=False)


def found(by_marks_mm: float, chained_mm: float, *, sew_marks: bool = False) -> list[Finding]:
    plan: Plan = small_plan()
    miss = JoinMiss(
        by_marks_mm=by_marks_mm,
        by_marks_at=ONE,
        typical_mm=1.0,
        chained_mm=chained_mm,
        chained_at=OTHER,
    )
    rules = replace(plan.project.hoopings, sew_marks=sew_marks)
    stages = (replace(plan.stages[0], miss=miss), plan.stages[1])
    return list(
        check(replace(plan, project=replace(plan.project, hoopings=rules), stages=stages))
    )


def test_joins_that_meet_are_noted_with_what_a_chain_would_come_to() -> None:
    (note,) = found(1.94, 5.2)
    assert (note.level, note.value, note.limit) == (Level.NOTE, 1.94, 2.0)
    assert note.text.startswith(
        "95 of 100 joins miss by less than 0.04 in, 0.08 in at the worst place"
    )
    assert note.text.endswith("lined up with one another, 0.20 in")
    assert note.help == ""


def test_joins_that_will_be_seen_are_warned_of_with_the_remedy() -> None:
    (warning,) = found(2.3, 5.2)
    assert (warning.level, warning.where) == (Level.WARNING, ONE.place)
    assert "hoopings 1 and 2 may miss each other by 0.09 in" in warning.text
    for remedy in ("refit", "larger field", "larger overlap"):
        assert remedy in warning.help


def test_a_miss_told_as_the_limit_is_not_above_it() -> None:
    (note,) = found(2.04, 5.2)
    (warning,) = found(2.06, 5.2)
    assert (note.level, warning.level) == (Level.NOTE, Level.WARNING)


def test_sewn_marks_are_judged_by_the_chain() -> None:
    (warning,) = found(1.5, 2.6, sew_marks=True)
    assert (warning.level, warning.value, warning.where) == (Level.WARNING, 2.6, OTHER.place)
    assert "draw the marks" in warning.help
    (note,) = found(1.5, 1.9, sew_marks=True)
    assert note.level is Level.NOTE
    assert note.text.endswith("joins miss by less than 0.07 in")


def test_a_stage_without_joins_has_nothing_to_say() -> None:
    assert list(check(small_plan())) == []
