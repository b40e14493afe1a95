"""All checks together."""

from stitchpath.checks import check_plan
from stitchpath.listing import member_names
from stitchpath.model.finding import Finding, Level
from stitchpath.model.project import Batting, Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.pipeline import plan


def test_findings_are_told_worst_first_and_else_in_order() -> None:
    quilt = Quilt(width=400, length=400, quilting=(Quilting(spacing=200),))
    whole = plan(Project(quilt=quilt, batting=Batting(quilting_distance=50)))
    said = (
        Finding(code="a", level=Level.NOTE, text="first"),
        Finding(code="b", level=Level.ERROR, text="second"),
    )
    found = check_plan(whole, said)
    assert found[0].text == "second"
    assert [one.level for one in found] == sorted(
        (one.level for one in found), key=list(Level).index
    )
    notes = [one for one in found if one.level is Level.NOTE and not one.is_caution]
    advised = [bool(one.help) for one in notes]
    assert any(advised)
    assert advised == sorted(advised, reverse=True)  # with advice before mere measures
    assert notes.index(said[0]) == sum(advised)  # and else in the order of telling


def test_every_check_is_a_file_with_a_code_of_its_name() -> None:
    from importlib import import_module  # noqa: PLC0415 - by the names found

    for name in member_names("stitchpath.checks"):
        module = import_module(f"stitchpath.checks.{name.replace('-', '_')}")
        assert name == module.CODE
