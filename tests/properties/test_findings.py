"""What holds for the findings of any project."""

from hypothesis import given, settings

from stitchpath.checks import check_names
from stitchpath.model.finding import Level
from stitchpath.model.project import Project
from stitchpath.pipeline import plan
from tests.strategies import projects


@settings(max_examples=30)
@given(project=projects())
def test_what_a_check_warns_of_has_a_number_a_limit_and_advice(project: Project) -> None:
    for finding in plan(project).findings:
        if finding.level is not Level.NOTE and finding.code in check_names():
            assert finding.value is not None, finding
            assert finding.limit is not None, finding
            assert finding.help, finding
            assert not finding.help.endswith("."), finding
        if finding.where is not None:
            assert finding.stage, finding


@settings(max_examples=30)
@given(project=projects())
def test_planned_quilts_are_sewn_where_they_may_be(project: Project) -> None:
    """No plan leaves its piece, shuts its pocket or crosses a keep-out."""
    codes = {one.code for one in plan(project).findings if one.level is Level.ERROR}
    assert not codes & {"edge", "pocket-mouth", "keep-out"}
