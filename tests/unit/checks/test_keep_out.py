"""Thread across what is to be kept clear."""

import math
from dataclasses import replace

import numpy as np
import pytest
import shapely

from stitchpath.checks.keep_out import check
from stitchpath.model.finding import Finding, Level
from stitchpath.model.piece import StageName
from stitchpath.model.project import Project, RouteRules
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.shape import Shape
from stitchpath.pipeline import plan
from tests.support.checked import plan_of, rows_of, stage_of

KEPT = shapely.box(80, 80, 120, 120)


def _found(
    *paths: list[tuple[float, float]],
    cuts: bool = True,
    name: StageName = "quilt",
    kept: shapely.Geometry | None = KEPT,
) -> list[Finding]:
    stage = replace(stage_of(rows_of(paths, cuts=cuts), name=name), barriers=kept)
    return list(check(plan_of(stage)))


def test_thread_beside_a_keep_out_and_up_to_its_border_is_fine() -> None:
    assert _found([(10, 10), (60, 60), (80, 80)], [(120, 90), (190, 90)]) == []


def test_a_stitch_into_it_is_an_error() -> None:
    (error,) = _found([(70, 100), (79, 100), (88, 100)])
    assert error.level is Level.ERROR
    assert error.text == "1 thread lies across a keep-out, where 0 may"
    assert error.where == pytest.approx((83.5, 100))
    assert error.help


def test_a_thread_left_uncut_across_it_is_an_error_too() -> None:
    around = [[(60.0, 100.0), (70.0, 100.0)], [(130.0, 100.0), (140.0, 100.0)]]
    assert _found(*around) == []
    assert len(_found(*around, cuts=False)) == 1


def test_of_the_seam_and_without_keep_outs_nothing_is_said() -> None:
    across = [(70.0, 100.0), (130.0, 100.0)]
    assert _found(across, name="seam") == []
    assert _found(across, kept=None) == []
    assert _found(across, kept=shapely.LineString([(75, 90), (75, 110)])) == []


@pytest.mark.parametrize(
    "layout", ["crosshatch", "clamshell", "echo", "stipple", "orange-peel"]
)
def test_planned_quilting_keeps_clear(layout: str) -> None:
    """A round keep-out and a square one, lines cut at their borders or led along them."""
    angles = np.linspace(0, 2 * np.pi, 60, endpoint=False)
    ring = tuple((100 + 40 * math.cos(a), 110 + 40 * math.sin(a)) for a in angles.tolist())
    kept = (Shape(polygon=ring), Shape(rectangle=(170, 30, 50, 40)))
    quilting = Quilting(layout=layout, spacing=12, keep_out=kept)
    quilt = Quilt(width=260, length=220, quilting=(quilting,))
    whole = plan(Project(quilt=quilt, route=RouteRules(travel="retrace")))
    assert whole.stages[0].barriers is not None
    assert list(check(whole)) == []
