"""Does the folded quilt go into its pocket: what is said of an estimated fold."""

from dataclasses import replace

from stitchpath.checks.fold_fit import check
from stitchpath.model.estimate import Estimate, Folding
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt

FOLDING = Folding(
    across=3,
    along=4,
    width=300,
    length=300,
    height=24,
    ease=16,
    smallest_pocket=(335, 340),
    largest_quilt=(945, 1260),
)


def _findings(folding: Folding | None) -> list[Finding]:
    project = Project(quilt=Quilt(width=900, length=1200))
    estimate = Estimate(folding=folding)
    plan = Plan(project=project, stages=(), cutting=(), findings=(), estimate=estimate)
    return list(check(plan))


def test_without_a_pocket_nothing_is_said() -> None:
    assert _findings(None) == []


def test_room_left_is_a_note_with_what_else_would_go() -> None:
    (note,) = _findings(FOLDING)
    assert (note.level, note.value, note.limit) == (Level.NOTE, 16, 0)
    assert note.text == (
        "folded in thirds across and in 4 along, the quilt is 300 mm x 300 mm and 24 mm high;"
        " the pocket leaves 16 mm"
    )
    assert note.help == (
        "a pocket of 335 mm x 340 mm would do; this one holds a quilt of up to 945 mm x 1260 mm"
    )


def test_room_lacking_is_a_warning_with_a_pocket_that_works() -> None:
    (warning,) = _findings(replace(FOLDING, across=2, along=1, ease=-3))
    assert (warning.level, warning.value) == (Level.WARNING, -3)
    assert warning.text.startswith("folded with both sides to the middle, the quilt is")
    assert warning.text.endswith("the pocket is too small by 3 mm")
    assert warning.help == ("make the pocket 335 mm x 340 mm, or the quilt smaller or thinner")
