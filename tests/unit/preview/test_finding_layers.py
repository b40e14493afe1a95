"""Findings in pictures."""

from dataclasses import replace

import numpy as np
import pytest

from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan
from stitchpath.preview import draw_hooping, draw_stage
from stitchpath.preview.colours import INK
from stitchpath.preview.finding_layers import finding_places, placed_findings
from tests.support.plans import LENGTH, WIDTH, small_plan
from tests.support.svg_reader import path_in, texts

PLAN = (
    small_plan()
)  # its first finding is a warning at 90, 120.12 on the quilt; field 1 is at 90, 120
QUILT, SEAM = PLAN.stages
WHOLE = (0.0, 0.0, WIDTH, LENGTH)


def _finding(
    level: Level, *, where: tuple[float, float] | None, stage: str = "quilt"
) -> Finding:
    return Finding(code="x", level=level, text="x", stage=stage, where=where)


def test_only_errors_and_warnings_with_a_place_on_the_stage_are_placed() -> None:
    findings = (
        _finding(Level.ERROR, where=(1, 2)),
        _finding(Level.WARNING, where=None),
        _finding(Level.WARNING, where=(3, 4), stage="seam"),
        _finding(Level.NOTE, where=(5, 6)),
        _finding(Level.WARNING, where=(7, 8)),
    )
    plan = replace(PLAN, findings=findings)
    assert finding_places(plan, QUILT, WHOLE) == [("1", (1.0, 2.0)), ("5", (7.0, 8.0))]
    assert [number for number, _ in placed_findings(plan, SEAM)] == [3]


def test_finding_outside_the_window_is_left_out() -> None:
    assert finding_places(PLAN, QUILT, (0.0, 0.0, 89.0, LENGTH)) == []


def test_diamond_is_drawn_with_its_number_where_the_finding_lies() -> None:
    svg = draw_stage(PLAN, QUILT)
    (diamond,) = path_in(svg, "findings", stroke=INK)
    assert np.mean(diamond, axis=0) == pytest.approx([90.0, 120.12], abs=0.02)
    assert texts(svg, "findings") == ["1"]
    assert any("finding" in words for words in texts(svg, "legend"))


@pytest.mark.parametrize(("hooping", "seen"), [(0, True), (3, False)])
def test_picture_of_a_hooping_has_the_findings_in_its_field(hooping: int, seen: bool) -> None:
    svg = draw_hooping(PLAN, QUILT, QUILT.hoopings[hooping])
    assert ('id="findings"' in svg) == seen


def test_picture_without_findings_has_no_layer_for_them() -> None:
    plan: Plan = replace(PLAN, findings=())
    assert 'id="findings"' not in draw_stage(plan, QUILT)
