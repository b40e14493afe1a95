"""Which cautions are due."""

from dataclasses import replace

from stitchpath.catalog.cautions import CAUTIONS
from stitchpath.checks.cautions import check
from stitchpath.model.finding import Level
from stitchpath.model.plan import Plan
from tests.support.checked import plan_of, rows_of, stage_of, with_pocket

ALWAYS = {one.text for one in CAUTIONS if one.when == "always"}
ROWS = rows_of([[(10, 10), (13, 10)]])


def _due(plan: Plan) -> set[str]:
    return {finding.text for finding in check(plan)} - ALWAYS


def test_each_is_a_note_and_the_manual_comes_last() -> None:
    found = list(check(plan_of(stage_of(ROWS))))
    assert {finding.level for finding in found} == {Level.NOTE}
    assert {finding.text for finding in found} == ALWAYS
    assert "manual and local rules" in found[-1].text


def test_all_the_usual_dangers_are_spoken_of() -> None:
    told = " ".join(one.text for one in CAUTIONS)
    for danger in ("hands", "needle", "unattended", "pins", "baby", "ink", "fire", "manual"):
        assert danger in told


def test_a_pocket_makes_a_cushion() -> None:
    (text,) = _due(plan_of(stage_of(ROWS), project=with_pocket()))
    assert "cushion" in text


def test_a_hoop_that_is_moved_has_a_quilts_weight_on_it() -> None:
    stage = stage_of(ROWS)
    (text,) = _due(plan_of(replace(stage, hoopings=stage.hoopings * 2)))
    assert "weight" in text


def test_thick_sandwiches_break_needles() -> None:
    (text,) = _due(plan_of(replace(stage_of(ROWS), thickness_mm=6.0)))
    assert "eyes" in text
    assert _due(plan_of(replace(stage_of(ROWS), thickness_mm=5.9))) == set()


def test_every_caution_is_one_short_phrase_with_its_source() -> None:
    assert len({one.name for one in CAUTIONS}) == len(CAUTIONS)
    for one in CAUTIONS:
        assert len(one.text) <= 100, one.name
        assert not one.text.endswith("."), one.name
        assert one.source, one.name
