"""Quilting too close to stay soft."""

import numpy as np
import pytest

from stitchpath.checks.close_quilting import check, closest_square
from stitchpath.model.finding import Level
from stitchpath.model.machine import Machine
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.pipeline import plan
from tests.support.checked import plan_of, stage_of


def _plan(layout: str, spacing: float) -> Project:
    """Return a quilt in one hooping: at joins the overlap is sewn twice, and counts twice."""
    quilting = (Quilting(layout=layout, spacing=spacing),)
    return Project(
        quilt=Quilt(width=300, length=300, quilting=quilting),
        machine=Machine(field=(310, 310)),
    )


def test_parallel_lines_measure_their_spacing() -> None:
    """Ten lines of 50 mm in a square of 50 mm are 5 mm apart (arithmetic)."""
    ends = np.array([[x, 5.0 * y] for y in range(10) for x in range(1, 50)], dtype=float)
    apart, where = closest_square(ends, np.full(len(ends), 50 / 49))
    assert apart == pytest.approx(5)
    assert where == (25, 25)


@pytest.mark.parametrize("shift", [(0.0, 0.0), (-350.0, 120.0)])
def test_the_densest_square_is_pointed_at(shift: tuple[float, float]) -> None:
    ends = np.array([[10.0, 10.0], [130.0, 60.0], [140.0, 70.0]]) + shift
    _, where = closest_square(ends, np.array([3.0, 3.0, 3.0]))
    assert where == (125 + shift[0], 75 + shift[1] - shift[1] % 50)


def test_close_lines_are_noted_and_wide_ones_are_not() -> None:
    (note,) = check(plan(_plan("parallel", 4)))
    assert note.level is Level.NOTE
    assert note.value == pytest.approx(4, rel=0.15)  # a square holds twelve or thirteen lines
    assert note.limit == 6
    assert note.where is not None
    assert list(check(plan(_plan("parallel", 12)))) == []


def test_crossing_lines_count_in_both_directions() -> None:
    (note,) = check(plan(_plan("crosshatch", 8)))
    assert note.value == pytest.approx(4, rel=0.15)


def test_where_nothing_is_sewn_nothing_is_said() -> None:
    assert list(check(plan_of(stage_of()))) == []
