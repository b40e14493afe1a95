"""Stitch lengths as they are in files; stitches to the inch are 25.4 over the length in mm."""

from dataclasses import replace

import numpy as np
import pytest

from stitchpath.checks.stitch_length import check
from stitchpath.model.finding import Finding, Level
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Basting, Plan
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.stitches import Op, Stitches
from stitchpath.pipeline import plan


def _plan(stitch_mm: float = 2.5, machine: Machine | None = None) -> Plan:
    quilting = (Quilting(layout="parallel", spacing=2000, stitch_length=stitch_mm),)
    quilt = Quilt(width=100, length=100, edge_stitch=0, quilting=quilting)
    return plan(Project(quilt=quilt, machine=machine or Machine()))


def _with_steps(
    *steps_mm: float, tie: bool = False, whole: Plan | None = None
) -> list[Finding]:
    """Return what is said of stitches of given lengths, limits 1 and 7."""
    whole = whole or _plan()
    (stage,) = whole.stages
    (sewn,) = stage.hoopings
    x = np.concatenate([[0.0], np.cumsum(steps_mm)])
    stitches = Stitches(
        xy=np.column_stack([x, np.full(len(x), 50.0)]),
        op=np.full(len(x), Op.STITCH),
        tie=np.full(len(x), tie),
    )
    changed = replace(stage, hoopings=(replace(sewn, stitches=stitches),))
    return list(check(replace(whole, stages=(changed,))))


@pytest.mark.parametrize(
    ("stitch_mm", "to_the_inch"),
    [(2.54, 10), (2.5, 10), (2.0, 13), (2.8, 9), (3.0, 8), (4.0, 6)],
)
def test_stitches_to_the_inch_are_twenty_five_point_four_over_mm(
    stitch_mm: float, to_the_inch: int
) -> None:
    """2.5 mm are 10.16, 2.0 mm 12.7, 3.0 mm 8.5 to the inch (docs/sources.md)."""
    (note,) = _with_steps(*[stitch_mm] * 10)
    assert f"({to_the_inch} to the inch)" in note.text
    assert note.level is Level.NOTE


def test_basting_is_left_out() -> None:
    """Its stitches of 5 mm come first, and are taken out again when the quilt is done."""
    whole = _plan(2.5)
    (stage,) = whole.stages
    (sewn,) = stage.hoopings
    basting = np.array([[5.0 * step, 0] for step in range(9)])
    stitches = Stitches(
        xy=np.concatenate([basting, sewn.stitches.xy]),
        op=np.concatenate([np.full(9, Op.STITCH), sewn.stitches.op]),
        tie=np.concatenate([np.zeros(9, dtype=np.bool_), sewn.stitches.tie]),
    )
    basted = replace(sewn, stitches=stitches, basting=Basting(box=True, stitches=9))
    told = check(replace(whole, stages=(replace(stage, hoopings=(basted,)),)))
    assert [found.text for found in told] == [found.text for found in check(whole)]


def test_the_usual_stitch_of_a_plan_is_the_chosen_one() -> None:
    (note,) = check(_plan(2.5))
    assert note.value == pytest.approx(2.5)
    assert note.text == (
        "stitches are 2.5 mm long, nine in ten 2.5 mm, mostly 2.5 mm "
        "(10 to the inch); allowed are 1 to 7 mm"
    )


def test_stitches_at_the_limits_are_fine() -> None:
    assert [finding.level for finding in _with_steps(1.0, 7.0, 2.0)] == [Level.NOTE]


def test_a_stitch_too_long_is_an_error_that_points_at_it() -> None:
    _, error = _with_steps(2.0, 7.1, 2.0)
    assert error.level is Level.ERROR
    assert error.text == "a stitch of 7.10 mm is too long; the project's limit is 7 mm"
    assert error.where == pytest.approx((9.1, 50))
    assert error.value == pytest.approx(7.1)
    assert error.limit == 7


def test_long_stitches_are_said_to_catch_on_things() -> None:
    """Longer than 7 mm, the usual longest setting (docs/sources.md)."""
    whole = _plan(machine=Machine(longest_stitch=12.0))
    note, warning = _with_steps(2.0, 7.5, 9.0, 7.0, whole=whole)
    assert note.limit == 12
    assert warning.level is Level.WARNING
    assert (
        "stitches of up to 9.0 mm catch on things; longer than 7 mm are 2 of 4" in warning.text
    )
    assert warning.where == pytest.approx((18.5, 50))
    assert (warning.limit, warning.help) == (7, "choose a shorter stitch length")


def test_a_stitch_longer_than_a_file_holds_is_an_error() -> None:
    """A dst record reaches 12.1 mm along an axis (docs/formats.md); a pes one 204.7 mm."""
    machine = Machine(longest_stitch=20.0, formats=("dst", "pes"))
    errors = [
        one
        for one in _with_steps(2.0, 12.2, whole=_plan(machine=machine))
        if one.level is Level.ERROR
    ]
    assert ["a dst file, which holds 12.1 mm" in one.text for one in errors] == [True]
    fine = _with_steps(2.0, 12.1, whole=_plan(machine=machine))
    assert Level.ERROR not in {one.level for one in fine}


def test_a_stage_without_stitches_has_no_lengths() -> None:
    (stage,) = _plan().stages
    assert list(check(replace(_plan(), stages=(replace(stage, hoopings=()),)))) == []


def test_a_stitch_too_short_is_a_warning() -> None:
    _, warning = _with_steps(2.0, 0.9, 2.0)
    assert warning.level is Level.WARNING
    assert "too short" in warning.text


def test_lengths_are_those_of_the_file() -> None:
    """1.04 mm is 1.0 in a file of tenths; 0.96 is 1.0 as well."""
    assert len(_with_steps(1.04, 0.96)) == 1


def test_ties_are_left_out() -> None:
    assert _with_steps(0.3, 0.3, tie=True) == []


def test_a_stage_without_hoopings_has_no_stitches_to_speak_of() -> None:
    whole = _plan()
    (stage,) = whole.stages
    assert list(check(replace(whole, stages=(replace(stage, hoopings=()),)))) == []
