"""Crowded needle points: how many, where, and what is allowed."""

from dataclasses import replace

import numpy as np
import pytest

from stitchpath.checks.needle_crowding import check
from stitchpath.geometry.points import Points
from stitchpath.model.checks import Checks
from stitchpath.model.finding import Finding, Level
from stitchpath.model.line import LineKind
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.pipeline import plan
from tests.support.checked import line, plan_of, rows_of, stage_of


def _row(x: float, y: float, count: int, apart: float = 0.2) -> Points:
    return np.array([[x + apart * at, y] for at in range(count)])


def _found(count: int, *, tie: bool = False) -> list[Finding]:
    """Return what is said of a row of needle points 0.2 mm apart."""
    return list(check(plan_of(stage_of(rows_of([_row(50, 60, count)], tie=tie)))))


def test_four_in_a_disc_of_a_millimetre_are_fine_and_five_are_not() -> None:
    """Five points 0.2 mm apart reach over 0.8 mm: the middle one's disc holds them all."""
    assert _found(4) == []
    (warning,) = _found(5)
    assert warning.level is Level.WARNING
    assert warning.text.startswith(
        "5 needle points share a disc of 1 mm on the quilt; at most 4"
    )
    assert (warning.value, warning.limit, warning.stage) == (5, 4, "quilt")
    assert warning.where == pytest.approx((50.4, 60))
    assert warning.help


def test_no_disc_of_a_millimetre_holds_more_than_lie_in_one() -> None:
    """Points 0.2 mm apart: 0.5 mm either side reach over two gaps, so a disc holds five."""
    warning, *_ = _found(40)
    assert warning.value == 5


def test_ties_may_be_denser() -> None:
    assert _found(5, tie=True) == []
    thick = plan_of(stage_of(rows_of([_row(50, 60, 9, apart=0.1)], tie=True)))
    (warning,) = check(thick)
    assert (warning.value, warning.limit) == (9, 8)


def test_so_may_corner_triangles() -> None:
    triangle = line([(40, 60), (60, 60), (40, 80), (40, 60)], LineKind.SEAM, whole=True)
    stage = stage_of(rows_of([_row(50, 60, 5)]), name="seam", lines=[triangle])
    assert list(check(plan_of(stage))) == []
    elsewhere = stage_of(rows_of([_row(100, 60, 5)]), name="seam", lines=[triangle])
    assert len(list(check(plan_of(elsewhere)))) == 1


def test_stages_of_one_piece_add_up_and_those_of_two_do_not() -> None:
    first, second = rows_of([_row(50, 60, 3)]), rows_of([_row(50, 60.1, 3)])
    on_one = plan_of(stage_of(first), stage_of(second, name="seam"))
    (warning,) = check(on_one)
    assert warning.value == 6
    assert warning.stage == "seam"
    assert list(check(plan_of(stage_of(first, name="pocket"), stage_of(second)))) == []


def test_the_worst_three_places_are_told_and_all_points_counted() -> None:
    places = [_row(x, 60, count) for x, count in ((20, 5), (50, 5), (80, 7), (110, 5))]
    places.append(_row(52, 60, 5))  # too near to be told apart
    findings = list(check(plan_of(stage_of(rows_of(places)))))
    assert len(findings) == 3
    # of a row of 7 the discs of the three in the middle hold five, and one in each row of 5
    assert all("(needle holes so crowded: 7)" in finding.text for finding in findings)


def test_limits_are_the_projects() -> None:
    project = Project(
        quilt=Quilt(width=200, length=200), checks=Checks(needle_points=2, needle_points_tied=3)
    )
    stage = stage_of(rows_of([_row(50, 60, 3)]))
    (warning,) = check(plan_of(stage, project=project))
    assert warning.limit == 2
    lax = replace(project, checks=Checks(needle_points=5))
    assert list(check(plan_of(stage, project=lax))) == []


def test_a_star_of_lines_through_one_point_is_crowded_in_its_middle() -> None:
    """Twelve lines through one point put at least twelve needle points there (geometry)."""
    star = [
        [(100 - 40 * np.cos(a), 100 - 40 * np.sin(a)), (100.0, 100.0)]
        for a in np.pi * np.arange(12) / 12
    ]
    (warning,) = check(plan_of(stage_of(rows_of(star))))
    assert warning.value == 12
    assert warning.where == pytest.approx((100, 100))


def test_planned_quilting_is_not_crowded() -> None:
    quilt = Quilt(width=300, length=300, quilting=(Quilting(spacing=25),))
    assert list(check(plan(Project(quilt=quilt)))) == []
    assert list(check(plan_of())) == []
