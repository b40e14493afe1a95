"""Thread across what is to be kept clear."""

from dataclasses import replace

import pytest
import shapely

from stitchpath.checks.keep_out import check
from stitchpath.model.finding import Finding, Level
from stitchpath.model.piece import StageName
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
    assert error.text == "1 threads lie across a keep-out, where 0 may"
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
