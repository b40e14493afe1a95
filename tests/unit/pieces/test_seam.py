"""The pocket's seam: three sides between two triangles, or the triangles alone."""

import numpy as np
import pytest

from stitchpath.model.line import LineKind
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, PocketSeam, Quilt
from stitchpath.pieces.corner import corner_path
from stitchpath.pieces.seam import mouth_opening, seam_lines
from stitchpath.pipeline import plan
from tests.support.lines import assert_same_line

LEFT, TOP = 300.0, 900.0


def _pocket(passes: int = 3, sew: str = "sides") -> Pocket:
    seam = PocketSeam(
        inset=5,
        corner_side=22,
        corner_across=12,
        passes=passes,
        sew="sides" if sew == "sides" else "corners",
        stitch_length=2.4,
    )
    return Pocket(width=400, length=410, seam=seam)


def test_the_seam_is_one_line_down_across_the_foot_and_up() -> None:
    (line,) = seam_lines(_pocket(), LEFT, TOP)
    expected = [(305, 905), (305, 927), (305, 905), (317, 905), (305, 905), (317, 905)]
    expected += [(305, 927), (305, 1305), (695, 1305)]
    expected += [(695, 927), (683, 905), (695, 905), (683, 905), (695, 905), (695, 927)]
    assert_same_line(line.points, [*expected, (695, 905)])
    assert (line.kind, line.stitch_mm) == (LineKind.SEAM, 2.4)


@pytest.mark.parametrize("passes", range(1, 6))
@pytest.mark.parametrize("sew", ["sides", "corners"])
def test_the_seam_is_its_own_mirror_image_sewn_backwards(passes: int, sew: str) -> None:
    lines = seam_lines(_pocket(passes, sew), LEFT, TOP)
    first, last = lines[0], lines[-1]
    assert_same_line(last.points[::-1], first.points * (-1, 1) + (2 * (LEFT + 200), 0))


@pytest.mark.parametrize("passes", range(1, 6))
def test_both_triangles_are_marked_as_whole(passes: int) -> None:
    (line,) = seam_lines(_pocket(passes), LEFT, TOP)
    begin, end = sorted(line.whole)
    triangle = corner_path(corner=(305, 905), side_mm=22, across_mm=12, passes=passes)
    assert_same_line(line.points[begin[0] : begin[1] + 1], triangle)
    mirrored = triangle * (-1, 1) + (2 * (LEFT + 200), 0)
    assert_same_line(line.points[end[0] : end[1] + 1], mirrored[::-1])


def test_corners_alone_are_two_lines_each_whole() -> None:
    lines = seam_lines(_pocket(sew="corners"), LEFT, TOP)
    assert len(lines) == 2
    assert all(line.whole == ((0, len(line.points) - 1),) for line in lines)
    assert max(np.ptp(line.points, axis=0).tolist() for line in lines) == [12, 22]


def test_the_mouth_stays_open_between_the_triangles() -> None:
    """From where the left mouth leg ends to where the right one does."""
    assert_same_line(mouth_opening(_pocket(), LEFT, TOP).coords, [(317, 905), (683, 905)])


def test_no_thread_lies_across_the_mouth_of_a_narrow_pocket() -> None:
    """Its triangles end 4 mm apart: near enough for a hop anywhere else."""
    seam = PocketSeam(inset=2, corner_side=8, corner_across=8, passes=3, sew="corners")
    pocket = Pocket(width=24, length=40, raise_=5, mouth_stitch=0, quilting=(), seam=seam)
    project = Project(
        quilt=Quilt(width=60, length=80, edge_stitch=0, quilting=()), pocket=pocket
    )
    (stage,) = plan(project).stages
    (hooping,) = stage.hoopings
    assert len(hooping.runs) == 2
    tips = [x for run in hooping.runs for line in run.lines for x in line.points[:, 0].tolist()]
    assert min(x for x in tips if x > 30) - max(x for x in tips if x < 30) == 4
