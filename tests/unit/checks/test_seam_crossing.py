"""The pocket's seam and the quilting beneath it."""

import pytest

from stitchpath.checks.seam_crossing import check
from stitchpath.model.finding import Finding, Level
from stitchpath.model.line import Line, LineKind
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, Quilt, Quilting
from stitchpath.model.shape import Shape
from stitchpath.pipeline import plan
from tests.support.checked import line, plan_of, stage_of

SEAM = line([(55, 105), (55, 175), (145, 175), (145, 105)], LineKind.SEAM)


def _found(*quilting: Line) -> list[Finding]:
    return list(check(plan_of(stage_of(lines=quilting), stage_of(lines=[SEAM], name="seam"))))


def test_crossings_are_counted() -> None:
    """A level line at 140 meets both sides, an upright one at 100 the foot."""
    (note,) = _found(line([(0, 140), (200, 140)]), line([(100, 0), (100, 200)]))
    assert note.level is Level.NOTE
    assert note.text == "the pocket's seam crosses quilting lines of the quilt 3 times"
    assert note.value == 3
    assert "footprint" in note.help


def test_a_line_beside_the_seam_is_told_with_its_length() -> None:
    (note,) = _found(line([(53, 110), (53, 170)]))
    assert "0 times, and runs beside one for 60 mm" in note.text
    assert note.where == pytest.approx((53, 140))


@pytest.mark.parametrize("x", [55.2, 60.0])
def test_a_line_on_the_seam_or_clear_of_it_is_fine(x: float) -> None:
    assert _found(line([(x, 110), (x, 170)])) == []


def test_quilting_that_keeps_clear_of_the_pocket_is_not_crossed() -> None:
    def crossings(*kept: Shape) -> list[Finding]:
        spec = Quilting(spacing=40, keep_out=kept, margin=6)
        quilt = Quilt(width=300, length=300, quilting=(spec,))
        pocket = Pocket(width=150, length=150, quilting=(), mouth_stitch=0)
        return list(check(plan(Project(quilt=quilt, pocket=pocket))))

    assert len(crossings()) == 1
    assert crossings(Shape(footprint=True)) == []


def test_without_both_stages_nothing_is_said() -> None:
    assert list(check(plan_of(stage_of()))) == []
    assert list(check(plan_of(stage_of(lines=[SEAM], name="seam")))) == []
