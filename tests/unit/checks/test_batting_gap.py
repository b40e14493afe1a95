"""The widest unquilted gap of whole plans, on pieces whose answer is plain."""

import math

import pytest

from stitchpath.checks.batting_gap import check
from stitchpath.model.finding import Finding, Level
from stitchpath.model.project import Batting, Pocket, PocketSeam, Project, Quilt, Quilting
from stitchpath.pipeline import plan


def _findings(
    *quilting: Quilting,
    edge_stitch: float = 0,
    allowed: float = 100,
    pocket: Pocket | None = None,
) -> list[Finding]:
    project = Project(
        quilt=Quilt(width=600, length=900, edge_stitch=edge_stitch, quilting=quilting),
        pocket=pocket,
        batting=Batting(quilting_distance=allowed),
    )
    return list(check(plan(project)))


def _gap(*quilting: Quilting, edge_stitch: float = 0) -> float:
    (finding,) = _findings(*quilting, edge_stitch=edge_stitch)
    assert finding.value is not None
    return finding.value


def test_between_parallel_lines_the_gap_is_their_spacing() -> None:
    spec = Quilting(layout="parallel", spacing=75, angle=90.0)
    assert _gap(spec) == pytest.approx(75, abs=0.5)


def test_in_crosshatch_the_gap_is_the_side_of_a_square() -> None:
    assert _gap(Quilting(spacing=60)) == pytest.approx(60, abs=0.5)


@pytest.mark.parametrize(("spacing", "margin", "top"), [(60, 120, 150), (50, 100, 100)])
def test_ends_of_lines_leave_room_round_a_corner(
    spacing: float, margin: float, top: float
) -> None:
    """A circle in the piece's corner that touches the end of the uppermost line.

    With the end at a, b from the corner's sides: (a - r)^2 + (b - r)^2 = r^2, so
    r = a + b - sqrt(2 a b). Level lines through the middle of 900 begin at `top`.
    """
    radius = margin + top - math.sqrt(2 * margin * top)
    spec = Quilting(layout="parallel", spacing=spacing, margin=margin)
    assert _gap(spec) == pytest.approx(2 * radius, abs=0.5)


def test_one_line_leaves_half_the_piece() -> None:
    spec = Quilting(layout="parallel", spacing=2000, angle=90.0)
    assert _gap(spec) == pytest.approx(300, abs=0.5)


def test_an_edge_line_counts_as_sewn() -> None:
    spec = Quilting(layout="parallel", spacing=2000, angle=90.0)
    assert _gap(spec, edge_stitch=10) == pytest.approx(290, abs=0.5)


def test_a_gap_within_the_limit_is_a_note_and_a_wider_one_a_warning() -> None:
    (note,) = _findings(Quilting(spacing=100), allowed=100)
    assert (note.level, note.help, note.limit) == (Level.NOTE, "", 100)
    assert note.text == (
        "the widest gap on the quilt is 100 mm, with room for a square of 100 mm; "
        "the batting allows 100 mm"
    )
    (warning,) = _findings(Quilting(spacing=100), allowed=90)
    assert warning.level is Level.WARNING
    assert warning.help == "make the spacing of crosshatch 90 mm or less"


def test_a_gap_is_pointed_at() -> None:
    (finding,) = _findings(Quilting(layout="parallel", spacing=2000, angle=90.0))
    assert finding.where is not None
    x, y = finding.where
    assert min(abs(x - 150), abs(x - 450)) < 1
    assert 149 <= y <= 751


def test_nothing_but_the_edge_is_told_apart_from_quilting() -> None:
    (note,) = _findings(edge_stitch=8)
    assert note.level is Level.NOTE
    assert note.text == "the quilt is not quilted here; its batting is not checked"
    assert note.value is None


def test_the_pockets_seam_counts_on_the_quilt_it_is_sewn_to() -> None:
    """One line down the middle of 600 leaves 300; the pocket's sides cut that at its height."""
    pocket = Pocket(width=500, length=880, raise_=10, seam=PocketSeam(inset=5), quilting=())
    spec = Quilting(layout="parallel", spacing=2000, angle=90.0)
    findings = {one.stage: one for one in _findings(spec, pocket=pocket)}
    assert set(findings) == {"pocket", "quilt"}
    gap = findings["quilt"].value
    assert gap is not None
    # between the middle and the seam: 300 - (50 + 5)
    assert gap == pytest.approx(245, abs=0.5)
