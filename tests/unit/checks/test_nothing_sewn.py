"""Projects that sew nothing."""

from stitchpath.checks.nothing_sewn import check
from stitchpath.model.finding import Level
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt
from stitchpath.pipeline import plan
from tests.support.checked import plan_of, stage_of


def test_a_project_without_lines_is_an_error() -> None:
    nothing = Project(quilt=Quilt(width=300, length=300, edge_stitch=0, quilting=()))
    (error,) = check(plan(nothing))
    assert error.level is Level.ERROR
    assert error.help == "add quilting, an edge line or a pocket"
    assert plan(nothing).has_errors


def test_anything_to_sew_is_enough() -> None:
    assert list(check(plan_of(stage_of()))) == []
