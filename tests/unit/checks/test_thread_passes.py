"""How often one place is sewn over."""

import numpy as np
import pytest

from stitchpath.checks.thread_passes import check
from stitchpath.model.finding import Finding, Level
from stitchpath.model.line import LineKind
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, PocketSeam, Quilt
from stitchpath.pipeline import plan
from tests.support.checked import line, plan_of, rows_of, stage_of

ROWS = rows_of([[(20, 50), (60, 50)]])


def _found(times: int, *, triangle: bool = False) -> list[Finding]:
    """Return what is said of a level line of 40 mm that is sewn so many times."""
    lines = [line([(20, 50), (60, 50)][:: (-1) ** at]) for at in range(times)]
    corner = line([(10, 40), (90, 40), (40, 90), (10, 40)], LineKind.SEAM, whole=True)
    stage = stage_of(ROWS, lines=[corner] if triangle else [], runs=lines, name="seam")
    return list(check(plan_of(stage)))


def test_three_passes_are_fine_and_four_are_not() -> None:
    """More than three layers of thread break it (docs/sources.md, sewing over sewing)."""
    assert _found(3) == []
    (warning,) = _found(4)
    assert warning.level is Level.WARNING
    assert (warning.value, warning.limit) == (4, 3)
    assert warning.where == pytest.approx((40, 50))
    assert "sewn over 4 times; the limit is 3" in warning.text
    assert "(sewn too often in all: 40 mm)" in warning.text


def test_a_triangle_may_have_one_more() -> None:
    """Three to four passes at the most (common practice, no source)."""
    assert _found(4, triangle=True) == []
    (warning,) = _found(5, triangle=True)
    assert warning.limit == 4


def test_passes_of_hoopings_and_stages_of_one_piece_add_up() -> None:
    twice = [line([(20, 50), (60, 50)])] * 2
    stages = [stage_of(ROWS, runs=twice), stage_of(ROWS, runs=twice, name="seam")]
    (warning,) = check(plan_of(*stages))
    assert warning.value == 4
    assert list(check(plan_of(stages[0]))) == []


def test_a_drawing_with_doubled_strokes_is_found() -> None:
    """A wave that is drawn four times over, flattened alike each time."""
    x = np.linspace(10, 90, 200)
    wave = np.column_stack([x, 50 + 10 * np.sin(x / 8)])
    (warning,) = check(plan_of(stage_of(ROWS, runs=[line(wave)] * 4)))
    assert warning.value == 4


def test_less_than_a_stitch_does_not_count() -> None:
    """Two lines of two passes each that overlap by 2.9 mm, and by 3.1."""
    for overlap, count in ((2.9, 0), (3.1, 1)):
        lines = [line([(11, 55), (15, 55)])] * 2 + [line([(15 - overlap, 55), (90, 55)])] * 2
        assert len(list(check(plan_of(stage_of(ROWS, runs=lines))))) == count


def test_five_passes_of_a_planned_triangle_are_warned_of_and_three_are_not() -> None:
    def passes(count: int) -> list[Finding]:
        pocket = Pocket(quilting=(), mouth_stitch=0, seam=PocketSeam(passes=count))
        quilt = Quilt(width=600, length=600, edge_stitch=0, quilting=())
        return list(check(plan(Project(quilt=quilt, pocket=pocket))))

    assert passes(3) == []
    (warning,) = passes(5)
    assert warning.value == 5
    assert list(check(plan_of())) == []
