"""What holds for the placement marks, the basting and the templates of any project."""

from dataclasses import replace
from math import dist

import numpy as np
from hypothesis import HealthCheck, given, settings

from stitchpath.model.hooping import Mark
from stitchpath.model.project import Project
from stitchpath.model.stitches import Op
from stitchpath.pipeline import plan
from stitchpath.preview.templates import draw_templates
from tests.strategies import projects
from tests.support.lines import assert_same_line
from tests.support.sewn import all_hoopings, in_file

NOISE_MM = 1e-6
FEW = settings(suppress_health_check=[HealthCheck.too_slow], deadline=None, max_examples=15)


@FEW
@given(project=projects())
def test_every_hooping_has_marks_in_its_field_and_on_its_piece(project: Project) -> None:
    places: dict[tuple[str, str], Mark] = {}
    for stage in plan(project).stages:
        for sewn in stage.hoopings:
            hooping, marks = sewn.hooping, sewn.hooping.marks
            assert 2 <= len(marks) <= 4
            assert dist(marks[0].piece, marks[1].piece) >= 1
            for mark in marks:
                assert np.all(np.abs(mark.field) <= np.array(hooping.field) / 2 + NOISE_MM)
                assert 0 <= mark.piece[0] <= stage.piece.width
                assert 0 <= mark.piece[1] <= stage.piece.length
                assert_same_line(hooping.to_piece(np.array([mark.field])), [mark.piece])
                first = places.setdefault((stage.piece.name, mark.name), mark)
                assert dist(first.piece, mark.piece) <= NOISE_MM, "one name is one place"


@FEW
@given(project=projects())
def test_basting_stays_in_its_field_within_the_longest_stitch_and_changes_nothing_else(
    project: Project,
) -> None:
    rules = replace(project.hoopings, sew_marks=True, basting_box=True)
    bare, basted = plan(project), plan(replace(project, hoopings=rules))
    for before, after in zip(
        all_hoopings(bare.stages), all_hoopings(basted.stages), strict=True
    ):
        rows = len(after.stitches) - len(before.stitches)
        assert np.array_equal(after.stitches.xy[rows:], before.stitches.xy)
        assert after.stitches.op[rows - 1] == Op.PAUSE
        assert after.figures.pauses == before.figures.pauses + 1
        assert after.basting.box
        half = np.array(after.hooping.field) / 2
        assert np.all(np.abs(in_file(after)) <= half + NOISE_MM)
        assert after.stitches.sewn_lengths.max() <= project.machine.longest_stitch


@FEW
@given(project=projects())
def test_each_mark_is_basted_once_in_a_stage_where_marks_are_sewn(project: Project) -> None:
    rules = replace(project.hoopings, sew_marks=True)
    for stage in plan(replace(project, hoopings=rules)).stages:
        basted = [name for sewn in stage.hoopings for name in sewn.basting.marks]
        assert sorted(basted) == sorted({mark.name for mark in stage.marks})


@FEW
@given(project=projects())
def test_templates_of_any_project_can_be_drawn(project: Project) -> None:
    planned = plan(project)
    if planned.stages:
        assert draw_templates(planned) == draw_templates(planned)
