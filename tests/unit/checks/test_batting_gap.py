"""The widest unquilted gap of whole plans, on pieces whose answer is plain."""

import math
import re

import pytest

from stitchpath.checks.batting_gap import check
from stitchpath.model.finding import Finding, Level
from stitchpath.model.project import Batting, Project
from stitchpath.model.quilt import Pocket, PocketSeam, Quilt, Quilting
from stitchpath.model.shape import Shape
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


@pytest.mark.parametrize(
    "layout",
    ["crosshatch", "parallel", "diagonal", "hanging-diamonds", "orange-peel", "clamshell",
     "double-diagonal", "serpentine"],
)  # fmt: skip
def test_the_spacing_that_is_advised_passes(layout: str) -> None:
    (warning,) = _findings(Quilting(layout=layout, spacing=160), allowed=70, edge_stitch=8)
    assert warning.level is Level.WARNING
    told = re.fullmatch(rf"make the spacing of {layout} (\d+) mm or less", warning.help)
    assert told is not None
    (note,) = _findings(
        Quilting(layout=layout, spacing=float(told[1])), allowed=70, edge_stitch=8
    )
    assert note.level is Level.NOTE


def test_the_advised_spacing_is_the_widest_that_a_ruler_shows() -> None:
    """A crosshatch of 71 mm has gaps of 71 mm, and a ruler shows whole millimetres."""
    (warning,) = _findings(Quilting(spacing=100), allowed=70.6)
    assert warning.help == "make the spacing of crosshatch 70 mm or less"
    (wide,) = _findings(Quilting(spacing=72), allowed=70.6)
    assert wide.level is Level.WARNING


def test_no_spacing_is_advised_where_a_layout_has_none() -> None:
    (warning,) = _findings(Quilting(layout="text", text="Weir"))
    assert warning.level is Level.WARNING
    assert warning.help == "make margins smaller, or lay another layout there"


def test_a_gap_that_no_layout_leaves_by_itself_is_not_mended_by_spacing() -> None:
    """Two bands of close lines with 300 mm between them."""
    bands = [
        Quilting(layout="parallel", spacing=20, area=Shape(rectangle=(0, top, 600, 300)))
        for top in (0, 600)
    ]
    (warning,) = _findings(*bands, allowed=70)
    assert warning.help == "make margins smaller, or lay another layout there"


def test_a_square_beside_the_gap_is_smaller_where_lines_slant() -> None:
    """Between parallel lines both are the spacing; in a circle's worth of room it is less."""
    (note,) = _findings(Quilting(layout="parallel", spacing=75, angle=90.0))
    assert "75 mm, with room for a square of 75 mm" in note.text


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
