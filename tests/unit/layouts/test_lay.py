"""Laying layouts: anchors, what is left out, what is said of it, who takes whose place."""

import numpy as np
import pytest
import shapely

from stitchpath.layouts import find_layout, lay_lines, layout_names
from stitchpath.model.finding import Finding, Level
from stitchpath.model.line import Line, LineKind
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, PocketSeam, Quilt, Quilting
from stitchpath.pieces import make_tasks


def _lay(
    *quilting: Quilting, edge_stitch: float = 0, width: float = 600, length: float = 400
) -> tuple[list[Line], tuple[Finding, ...]]:
    quilt = Quilt(width=width, length=length, edge_stitch=edge_stitch, quilting=quilting)
    (task,) = make_tasks(Project(quilt=quilt))
    laid = lay_lines(task)
    lines, findings = laid.lines, laid.findings
    return list(lines), findings


def _shape(lines: list[Line]) -> shapely.MultiLineString:
    return shapely.MultiLineString([line.points for line in lines])


def test_the_layouts_are_the_files_of_their_room() -> None:
    assert {"crosshatch", "diagonal", "parallel"} <= set(layout_names())
    assert all(find_layout(name).summary for name in layout_names())


def test_an_unknown_layout_is_a_bug_of_the_caller() -> None:
    with pytest.raises(ValueError, match="no member 'zigzagzig'"):
        find_layout("zigzagzig")


def test_crosshatch_has_its_two_middle_lines_as_anchors_length_first_then_width() -> None:
    lines, _ = _lay(Quilting(spacing=100))
    anchors = [line.points for line in lines if line.anchor]
    assert len(anchors) == 2
    assert np.all(anchors[0][:, 0] == 300)
    assert np.all(anchors[1][:, 1] == 200)


@pytest.mark.parametrize("start", ["centre", "edge"])
def test_parallel_lines_have_one_anchor_the_nearest_to_the_middle(start: str) -> None:
    spec = Quilting(
        layout="parallel", spacing=110, start="edge" if start == "edge" else "centre"
    )
    lines, _ = _lay(spec)
    (anchor,) = [line for line in lines if line.anchor]
    away = [abs(float(line.points[0, 1]) - 200) for line in lines]
    assert abs(anchor.points[0, 1] - 200) == min(away)


def test_edge_lines_come_after_the_quilting() -> None:
    lines, _ = _lay(Quilting(spacing=100), edge_stitch=8)
    assert [line.kind for line in lines][-2:] == [LineKind.QUILTING, LineKind.EDGE]


def test_lines_along_a_sewn_edge_are_left_out_and_a_note_says_so() -> None:
    """At 100 from the edge of 600 x 400 both families have a line on two edges."""
    lines, findings = _lay(Quilting(spacing=100, start="edge"))
    assert len(lines) == 5 + 3
    (note,) = findings
    assert (note.code, note.level, note.stage) == ("line-left-out", Level.NOTE, "quilt")
    assert note.text == "4 lines are left out on the quilt: they would run along a sewn edge"


def test_a_line_within_a_stitch_of_the_edge_line_is_left_out() -> None:
    """Edge line at 8, first line from the centre at 300 - 97 * 3 = 9, stitch 2.8."""
    spec = Quilting(layout="parallel", spacing=97, angle=90.0, stitch_length=2.8)
    lines, findings = _lay(spec, edge_stitch=8)
    assert [line.points[0, 0] for line in lines[:-1]] == [106, 203, 300, 397, 494]
    assert "2 lines are left out" in findings[0].text


def test_a_line_more_than_a_stitch_from_the_edge_line_stays() -> None:
    spec = Quilting(layout="parallel", spacing=96, angle=90.0, stitch_length=2.8)
    lines, findings = _lay(spec, edge_stitch=8)
    assert lines[0].points[0, 0] == 12
    assert findings == ()


def test_lines_of_fewer_than_three_stitches_are_left_out_and_a_note_says_so() -> None:
    """At 197 mm from the middle of a square whose corners lie at 200, a line is 6 mm long."""
    side = 400 / np.sqrt(2)
    spec = Quilting(layout="parallel", spacing=197, angle=45.0, stitch_length=2.8, margin=0.0)
    lines, findings = _lay(spec, width=side, length=side)
    assert len(lines) == 1
    (note,) = findings
    assert note.text == "2 lines are left out on the quilt: too short to hold anything"


def test_one_line_left_out_is_told_in_the_singular() -> None:
    spec = Quilting(layout="parallel", spacing=250, start="edge", angle=90.0)
    lines, findings = _lay(spec)
    assert [line.points[0, 0] for line in lines] == [250, 500]
    assert findings[0].text.startswith("1 line is left out")


def test_a_later_layout_takes_its_place_from_an_earlier_one() -> None:
    outer = Quilting(layout="parallel", spacing=20, angle=90.0)
    inner = Quilting(layout="parallel", spacing=35, angle=0.0, margin=100)
    lines, _ = _lay(outer, inner)
    block = shapely.box(100, 100, 500, 300)
    upright = [line for line in lines if np.ptp(line.points[:, 0]) < 1e-9]
    level = [line for line in lines if np.ptp(line.points[:, 1]) < 1e-9]
    assert len(upright) + len(level) == len(lines)
    assert shapely.intersection(_shape(upright), block.buffer(-0.01)).is_empty
    assert block.buffer(1e-9).covers(_shape(level))
    # upright lines at 100 < x < 500 are in two parts, above and below the block
    assert len([line for line in upright if 100 < line.points[0, 0] < 500]) == 2 * 19


@pytest.mark.parametrize("start", ["centre", "edge"])
def test_a_line_on_the_border_of_two_layouts_is_sewn_once(start: str) -> None:
    """Both crosshatches of 50 have lines on the block's border at a margin of 100."""
    begin = "edge" if start == "edge" else "centre"
    specs = (
        Quilting(spacing=50, start="centre"),
        Quilting(spacing=50, start="edge" if begin == "edge" else "centre", margin=100),
    )
    lines, _ = _lay(*specs)
    shape = _shape(lines)
    assert shape.length == pytest.approx(shapely.union_all(shape).length, abs=1e-3)


def test_a_layout_without_a_place_left_is_a_warning() -> None:
    lines, findings = _lay(Quilting(spacing=100), Quilting(spacing=90))
    assert len(lines) == 7 + 5
    (warning,) = (finding for finding in findings if finding.level is Level.WARNING)
    assert warning.text == "the layout crosshatch has no place left on the quilt"
    assert warning.help.startswith("give the layouts after it an `area` each, ")


def test_a_margin_that_leaves_nothing_is_a_warning_and_lays_nothing() -> None:
    lines, findings = _lay(Quilting(spacing=100, margin=250))
    assert lines == []
    assert [finding.level for finding in findings] == [Level.WARNING]
    assert findings[0].help.startswith("make its margin smaller")


def test_the_pockets_quilting_stays_inside_mouth_line_and_seam() -> None:
    pocket = Pocket(width=300, length=320, mouth_stitch=8, seam=PocketSeam(inset=5))
    project = Project(quilt=Quilt(width=900, length=1200), pocket=pocket)
    lines = lay_lines(make_tasks(project)[0]).lines
    area = shapely.box(5, 8, 295, 315).buffer(1e-9)
    assert all(area.covers(shapely.LineString(line.points)) for line in lines)
    assert lines[-1].kind is LineKind.MOUTH


def test_every_line_has_the_stitch_of_its_layout() -> None:
    specs = (Quilting(spacing=50, stitch_length=3.0), Quilting(margin=90, stitch_length=2.2))
    lines, _ = _lay(*specs)
    assert {line.stitch_mm for line in lines} == {3.0, 2.2}
