"""Checks that a project wants quiet."""

from stitchpath.checks import check_names, check_plan
from stitchpath.model.checks import Checks, Silence
from stitchpath.model.finding import Finding, Level
from stitchpath.model.machine import Machine
from stitchpath.model.project import Batting, Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.pipeline import plan


def _found(*silences: Silence, allowed: float = 50) -> tuple[Finding, ...]:
    """Return the findings of a quilt with a gap of 200, on a fast machine."""
    project = Project(
        quilt=Quilt(width=400, length=400, quilting=(Quilting(spacing=200),)),
        batting=Batting(quilting_distance=allowed),
        machine=Machine(speed=900),
        checks=Checks(silence=silences),
    )
    return plan(project).findings


GAP = Silence(check="batting-gap", reason="scrim on both sides")


def test_a_silenced_warning_becomes_a_note_with_the_reason() -> None:
    (loud,) = (one for one in _found() if one.code == "batting-gap")
    (quiet,) = (one for one in _found(GAP) if one.code == "batting-gap")
    assert (loud.level, loud.silenced) == (Level.WARNING, "")
    assert (quiet.level, quiet.silenced) == (Level.NOTE, "scrim on both sides")
    assert (quiet.text, quiet.value, quiet.where) == (loud.text, loud.value, loud.where)
    assert quiet.help == ""


def test_others_are_told_all_the_same() -> None:
    assert [one.code for one in _found(GAP) if one.level is Level.WARNING] == ["speed"]


def test_silenced_notes_come_after_the_others_and_before_the_cautions() -> None:
    codes = [one.code for one in _found(GAP)]
    assert codes.index("batting-gap") == codes.index("cautions") - 1
    assert codes[-1] == "cautions"


def test_an_error_cannot_be_silenced() -> None:
    quilt = Quilt(width=400, length=400, edge_stitch=0, quilting=())
    silence = Silence(check="nothing-sewn", reason="on purpose")
    found = plan(Project(quilt=quilt, checks=Checks(silence=(silence,)))).findings
    assert (found[0].code, found[0].level, found[0].silenced) == (
        "nothing-sewn",
        Level.ERROR,
        "",
    )


def test_reasons_of_one_check_are_joined() -> None:
    again = Silence(check="batting-gap", reason="tested")
    (quiet,) = (one for one in _found(GAP, again) if one.code == "batting-gap")
    assert quiet.silenced == "scrim on both sides; tested"


def test_a_silence_that_is_not_needed_is_told() -> None:
    found = [one for one in _found(GAP, allowed=300) if one.code == "batting-gap"]
    assert [one.level for one in found] == [Level.NOTE, Level.NOTE]
    assert any("has nothing to warn of" in one.text for one in found)


def test_a_note_with_advice_can_be_silenced_too() -> None:
    quilt = Quilt(width=300, length=300, quilting=(Quilting(layout="parallel", spacing=4),))
    silence = Silence(check="close-quilting", reason="a bath mat")
    found = plan(Project(quilt=quilt, checks=Checks(silence=(silence,)))).findings
    (quiet,) = (one for one in found if one.code == "close-quilting")
    assert quiet.silenced == "a bath mat"


def test_cautions_cannot_be_silenced() -> None:
    assert "cautions" not in check_names()
    assert "batting-gap" in check_names()


def test_what_planning_said_can_be_worst() -> None:
    whole = plan(Project(quilt=Quilt(width=400, length=400)))
    said = (Finding(code="odd-gap", level=Level.ERROR, text="first"),)
    assert check_plan(whole, said)[0].text == "first"
