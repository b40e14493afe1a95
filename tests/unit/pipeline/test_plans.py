"""From a project to a plan of all stages."""

from dataclasses import replace

import pytest

from stitchpath.model.finding import Level
from stitchpath.model.machine import Machine
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, PocketSeam, Quilt, Quilting
from stitchpath.model.stitches import Op
from stitchpath.model.supplies import Times
from stitchpath.pipeline import compare_fields, plan, plan_corner

THROW = Project(
    quilt=Quilt(width=500, length=700, quilting=(Quilting(spacing=100),)),
    pocket=Pocket(width=250, length=250),
)


def test_a_throw_is_planned_in_three_stages_in_the_order_of_sewing() -> None:
    whole = plan(THROW)
    assert [stage.name for stage in whole.stages] == ["pocket", "quilt", "seam"]
    assert not whole.has_errors
    assert whole.cutting[0].what == "quilt top"
    assert all(stage.hoopings for stage in whole.stages)


def test_figures_of_stages_are_the_sums_of_their_hoopings() -> None:
    whole = plan(THROW)
    for stage in whole.stages:
        assert stage.figures.stitches == sum(h.figures.stitches for h in stage.hoopings)
    assert whole.figures.stitches == sum(stage.figures.stitches for stage in whole.stages)
    counted = sum(len(h.stitches.needle_points) for s in whole.stages for h in s.hoopings)
    assert whole.figures.stitches == counted


def test_marks_of_one_name_are_one_place_of_a_piece_in_all_its_stages() -> None:
    pocket, quilt, seam = plan(THROW).stages
    assert seam.piece.name == quilt.piece.name != pocket.piece.name
    before = {mark.name: mark.place for mark in quilt.marks}
    after = {mark.name: mark.place for mark in seam.marks}
    both = before.keys() & after.keys()
    assert both
    assert {name: after[name] for name in both} == {name: before[name] for name in both}


def test_a_stage_with_nothing_to_sew_is_left_out() -> None:
    bare = Project(quilt=Quilt(width=500, length=700, edge_stitch=0, quilting=()))
    assert plan(bare).stages == ()


def test_a_corner_that_no_field_holds_makes_a_plan_with_an_error_and_no_hoopings() -> None:
    project = Project(
        quilt=Quilt(width=500, length=700),
        pocket=Pocket(width=250, length=250, seam=PocketSeam(corner_side=80, corner_across=60)),
        machine=Machine(field=(60, 60)),
    )
    whole = plan(project)
    assert whole.has_errors
    seam = whole.stages[-1]
    assert (seam.name, seam.hoopings, seam.figures.stitches) == ("seam", (), 0)
    assert whole.findings[0].level is Level.ERROR


@pytest.mark.parametrize("hand", ["left", "right"])
def test_a_corner_can_be_planned_by_itself(hand: str) -> None:
    whole = plan_corner(
        PocketSeam(),
        Machine(),
        hand="left" if hand == "left" else "right",
        thickness_mm=6,
    )
    (stage,) = whole.stages
    (sewn,) = stage.hoopings
    assert not whole.has_errors
    assert "ring-overhang" not in {finding.code for finding in whole.findings}
    assert (stage.name, stage.thickness_mm, len(sewn.runs)) == ("seam", 6, 1)
    assert sewn.stitches.needle_points[-1, 1] > sewn.stitches.needle_points[0, 1]


@pytest.mark.parametrize(("asked", "pauses"), [("never", 0), ("seam", 1), ("always", 1)])
def test_a_corner_pauses_for_the_bobbin_thread_as_a_seam_does(asked: str, pauses: int) -> None:
    machine = Machine.__pydantic_validator__.validate_python({"bobbin_pull_up": asked})  # type: ignore[attr-defined]
    corner = plan_corner(PocketSeam(), machine, hand="left", thickness_mm=6)
    ((sewn,),) = (stage.hoopings for stage in corner.stages)
    ops = sewn.stitches.op.tolist()
    assert ops.count(Op.PAUSE) == sewn.figures.pauses == pauses
    if pauses:  # after the first stitch, where the needle has not moved on
        assert ops[ops.index(Op.STITCH) + 1] == Op.PAUSE


def test_each_of_several_fields_is_compared_only_when_asked() -> None:
    fields = ((130.0, 180.0), (200.0, 300.0))
    mat = Project(
        quilt=Quilt(width=300, length=400),
        machine=Machine(fields=fields),
        times=Times(hooping_minutes=6, placing_minutes=4),
    )
    planned = plan(mat)
    assert planned.fields_alone == ()
    for alone, field in zip(compare_fields(planned).fields_alone, fields, strict=True):
        single = plan(replace(mat, machine=Machine(field=field)))
        (stage,) = single.stages
        assert alone.field == field
        assert alone.hoopings == len(stage.hoopings)
        assert alone.seconds == single.figures.seconds
        assert alone.handling >= 600 * alone.hoopings


def test_a_field_that_cannot_hold_what_is_whole_needs_no_hoopings() -> None:
    throw = Project(
        quilt=Quilt(width=300, length=400),
        pocket=Pocket(width=100, length=100, seam=PocketSeam(corner_side=60, corner_across=40)),
        machine=Machine(fields=((50.0, 50.0), (200.0, 300.0))),
    )
    small, large = compare_fields(plan(throw)).fields_alone
    assert (small.hoopings, small.seconds, small.handling) == (0, 0, 0)
    assert large.hoopings > 0


def test_a_single_field_has_nothing_to_be_compared_with() -> None:
    planned = plan(Project(quilt=Quilt(width=300, length=400)))
    assert compare_fields(planned) is planned
