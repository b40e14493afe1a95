"""Thread that would sew the pocket shut."""

import numpy as np
import pytest

from stitchpath.checks.pocket_mouth import check
from stitchpath.model.finding import Finding, Level
from stitchpath.model.line import Line, LineKind
from stitchpath.model.machine import Machine
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, PocketSeam, Quilt
from stitchpath.pipeline import plan
from tests.support.checked import line, plan_of, rows_of, stage_of, with_pocket

INSET = 4.7625
"""Of the seam; the pocket lies at 50 to 150 across and 100 to 180 down."""
X0, X1, Y0, Y1 = 50 + INSET, 150 - INSET, 100 + INSET, 180 - INSET


def _triangles() -> list[Line]:
    corners = [[(x, Y0), (x + 12 * way, Y0), (x, Y0 + 22)] for x, way in ((X0, 1), (X1, -1))]
    return [line([*corner, corner[0]], LineKind.SEAM, whole=True) for corner in corners]


def _found(*paths: list[tuple[float, float]], cuts: bool = True) -> list[Finding]:
    stage = stage_of(rows_of(paths, cuts=cuts), name="seam", lines=_triangles())
    return list(check(plan_of(stage, project=with_pocket())))


def _corner() -> list[tuple[float, float]]:
    return [(X0, Y0 + 22), (X0, Y0), (X0 + 12, Y0), (X0, Y0 + 22)]


def test_three_sides_and_two_triangles_leave_it_open() -> None:
    assert _found([*_corner(), (X0, Y1), (X1, Y1), (X1, Y0)], [(X1 - 12, Y0), (X1, Y0)]) == []


@pytest.mark.parametrize("y", [100.0, Y0, 120.0, 170.0])
def test_a_line_across_sews_it_shut(y: float) -> None:
    (error,) = _found([(X0, y), (X1, y)])
    assert error.level is Level.ERROR
    assert "sews it shut" in error.text
    assert error.where == pytest.approx((100, y))
    assert (error.value, error.limit) == (1, 0)
    assert error.help


def test_every_stitch_of_it_is_counted() -> None:
    x = np.linspace(X0 + 15, X1 - 15, 11)
    (error,) = _found([(at, Y0) for at in x.tolist()])
    assert error.value == 10


def test_a_thread_left_uncut_from_corner_to_corner_sews_it_shut_too() -> None:
    corners = [_corner(), [(X1, Y0 + 22), (X1, Y0)]]
    assert _found(*corners) == []
    assert len(_found(*corners, cuts=False)) == 1


def test_what_the_maker_snips_between_runs_does_not_count() -> None:
    """Two triangles sewn alone, in one field, by a machine that leaves the threads."""
    quilt = Quilt(width=100, length=100, edge_stitch=0, quilting=())
    seam = PocketSeam(sew="corners", corner_side=10, corner_across=8)
    pocket = Pocket(width=80, length=80, quilting=(), mouth_stitch=0, seam=seam)
    machine = Machine(cuts_thread=False)
    whole = plan(Project(quilt=quilt, pocket=pocket, machine=machine))
    assert len(whole.stages[0].hoopings[0].runs) == 2
    assert list(check(whole)) == []


def test_planned_pockets_stay_open_and_others_have_no_mouth() -> None:
    quilt = Quilt(width=300, length=400, quilting=())
    pocket = Pocket(width=200, length=200, quilting=(), mouth_stitch=0)
    assert list(check(plan(Project(quilt=quilt, pocket=pocket)))) == []
    assert list(check(plan_of(stage_of(rows_of([[(X0, Y0), (X1, Y0)]]))))) == []
