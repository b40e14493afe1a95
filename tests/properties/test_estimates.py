"""What is estimated of any project hangs together with its plan."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchpath.model.project import Fabric, Project
from stitchpath.model.supplies import Supplies, Times
from stitchpath.pipeline import plan
from tests.strategies import lengths, projects


@st.composite
def _supplied(draw: st.DrawFn) -> Project:
    """Return projects with cloth, thread and times of any kind."""
    fabric = Fabric(
        usable_width=draw(lengths(150, 1200)),
        shrinkage=draw(st.sampled_from([0.0, 0.03, 0.1])),
        backing_width=draw(st.none() | lengths(150, 2800)),
        directional=draw(st.booleans()),
        backing_from=draw(st.sampled_from(["own", "top"])),
        pocket_from=draw(st.sampled_from(["own", "top", "backing"])),
        binding_from=draw(st.sampled_from(["own", "top", "backing", "pocket"])),
    )
    return replace(
        draw(projects()),
        fabric=fabric,
        times=Times(
            speed_factor=draw(st.sampled_from([0.5, 1.0, 1.5])),
            evening_hours=draw(st.sampled_from([0.25, 1.0, 3.0])),
        ),
        supplies=Supplies(thread_tex=draw(st.sampled_from([10.0, 20.0, 200.0]))),
    )


@given(project=_supplied())
@settings(max_examples=25)
def test_estimates_hang_together_with_their_plan(project: Project) -> None:
    planned = plan(project)
    estimate = planned.estimate
    sewn = [
        (stage.name, one.hooping.number) for stage in planned.stages for one in stage.hoopings
    ]
    assert [(one.stage, one.hooping) for one in estimate.work] == sewn
    assert sum(one.sewing for one in estimate.work) == pytest.approx(planned.figures.seconds)
    assert sum(one.seconds for one in estimate.sessions) == pytest.approx(
        sum(one.seconds for one in estimate.work)
    )
    total = planned.figures.top_thread_mm + planned.figures.bobbin_thread_mm
    assert sum(one.buy_mm for one in estimate.threads) == pytest.approx(1.15 * total)
    assert sum(one.count for one in estimate.bobbins) <= sum(
        stage.bobbins for stage in planned.stages
    )
    assert (estimate.folding is None) == (project.pocket is None)


@given(project=_supplied())
@settings(max_examples=25)
def test_every_piece_lies_on_its_cloth(project: Project) -> None:
    planned = plan(project)
    cloths = planned.estimate.cloths
    for cloth in cloths:
        assert cloth.length <= cloth.buy + 1e-6
        assert all(one.x + one.width <= cloth.usable_width + 1e-3 for one in cloth.pieces)
        assert all(one.y + one.length <= cloth.length + 1e-3 for one in cloth.pieces)
    laid = sum(one.width * one.length for cloth in cloths for one in cloth.pieces)
    cut = sum(
        one.count * one.width * one.length
        for one in planned.cutting
        if not one.what.endswith("batting")
    )
    assert laid >= cut * (1 - 1e-9)  # panels have seams of their own
    batting = planned.estimate.batting
    assert all(one.x + one.width <= batting.width + 1e-3 for one in batting.pieces)
    assert all(one.y + one.length <= batting.length + 1e-3 for one in batting.pieces)
