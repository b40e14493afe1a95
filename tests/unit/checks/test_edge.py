"""Needle points off the piece, and beside its edges."""

import pytest

from stitchpath.checks.edge import check
from stitchpath.model.finding import Finding, Level
from stitchpath.model.piece import StageName
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt
from tests.support.checked import SIDE, plan_of, rows_of, stage_of, with_pocket


def _found(
    *path: tuple[float, float], edge: str = "turned", name: StageName = "quilt"
) -> list[Finding]:
    quilt = Quilt(width=SIDE, length=SIDE, edge=edge)  # type: ignore[arg-type]
    project = with_pocket(Project(quilt=quilt)) if name != "quilt" else Project(quilt=quilt)
    return list(check(plan_of(stage_of(rows_of([path]), name=name), project=project)))


def test_needle_points_well_inside_are_fine() -> None:
    assert _found((10, 10), (13, 10), (16, 10)) == []


@pytest.mark.parametrize("edge", ["turned", "bound"])
def test_needle_points_off_the_piece_are_an_error(edge: str) -> None:
    (error,) = _found((190, 10), (196, 10), (202, 10), (207, 10), edge=edge)
    assert error.level is Level.ERROR
    assert error.text.startswith("2 needle points lie off the quilt, up to 7 mm outside")
    assert (error.value, error.limit) == (7.0, 0.0)
    assert error.where == pytest.approx((207, 10))
    assert error.help


def test_a_line_that_ends_on_a_turned_edge_is_noted() -> None:
    (note,) = _found((190, 10), (195, 10), (200, 10))
    assert note.level is Level.NOTE
    assert note.text.startswith("1 stitch ends nearer than 1.5 mm to the finished edge")
    assert note.where == (200, 10)


def test_a_line_along_a_turned_edge_is_warned_of() -> None:
    (warning,) = _found((20, 199), (24, 199), (28, 199))
    assert warning.level is Level.WARNING
    assert warning.text.startswith("2 stitches run nearer than 1.5 mm to the finished edge")
    assert warning.value == pytest.approx(1)
    assert warning.limit == 1.5
    assert _found((20, 198.4), (24, 198.4)) == []


def test_ties_and_lines_that_run_at_an_edge_are_not_along_it() -> None:
    """At 45 degrees, and straight on in the short stitches of a tie."""
    (slanting,) = _found((198.6, 100), (199.6, 101), (200, 101.4))
    (straight,) = _found((197, 100), (199, 100), (199.8, 100), (199.4, 100))
    assert slanting.level is straight.level is Level.NOTE
    assert straight.text.startswith("3 stitches end nearer than 1.5 mm to the finished edge")


def test_a_bound_edge_hides_what_lies_beside_it() -> None:
    assert _found((20, 199), (24, 199), edge="bound") == []


def test_the_seam_keeps_off_the_pockets_edge() -> None:
    """The pocket's left edge lies at 50."""
    (warning,) = _found((51, 120), (51, 124), (51, 128), name="seam")
    assert warning.level is Level.WARNING
    assert "the pocket's edge" in warning.text
    assert _found((55, 120), (55, 124), name="seam") == []


def test_a_stage_without_stitches_is_fine() -> None:
    assert list(check(plan_of(stage_of()))) == []
