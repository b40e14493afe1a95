"""The plan of stitches that are there already."""

import numpy as np
import pytest

from stitchpath.model.machine import Machine
from stitchpath.model.plan import Plan
from stitchpath.model.stitches import Op, Stitches
from stitchpath.pipeline import plan_stitches

MACHINE = Machine(field=(100, 100))


def _row(length_mm: float, *, step_mm: float = 2.5) -> Stitches:
    """Return a move, then stitches to the right from 40 mm left of and above the origin."""
    x = np.arange(0, length_mm + step_mm, step_mm) - 40
    xy = np.column_stack([x, np.full(len(x), -40.0)])
    op = np.full(len(x) + 1, Op.STITCH, dtype=np.uint8)
    op[0] = Op.JUMP
    return Stitches(
        xy=np.concatenate([xy[:1], xy]), op=op, tie=np.zeros(len(op), dtype=np.bool_)
    )


def _planned(stitches: Stitches) -> Plan:
    planned = plan_stitches(stitches, MACHINE, name="Sail", thickness_mm=3)
    assert planned is not None
    return planned


def test_what_fits_a_field_is_one_hooping_with_every_needle_point_where_it_was() -> None:
    given = _row(60)
    (stage,) = _planned(given).stages
    (sewn,) = stage.hoopings
    assert sewn.figures.stitches == stage.figures.stitches == len(given.needle_points)
    moved = sewn.stitches.needle_points - given.needle_points
    assert np.ptp(moved, axis=0) == pytest.approx([0, 0], abs=1e-9)


def test_a_longer_row_is_divided_and_every_part_lies_in_its_field() -> None:
    planned = _planned(_row(230))
    (stage,) = planned.stages
    assert len(stage.hoopings) == 3  # two reach 2 x 100 - 12.7 mm
    for sewn in stage.hoopings:
        assert np.abs(sewn.hooping.to_field(sewn.stitches.needle_points)).max() <= 50
    assert stage.figures.stitches == sum(one.figures.stitches for one in stage.hoopings)
    assert stage.figures.stitches > len(_row(230).needle_points)  # both ends are sewn over
    assert stage.bobbins == 1


def test_all_that_is_said_of_it_is_how_to_stay_safe() -> None:
    planned = _planned(_row(60))
    assert planned.findings
    assert all(finding.is_caution for finding in planned.findings)
    assert planned.cutting == ()


def test_runs_are_counted_by_their_cuts() -> None:
    given = _row(60)
    cut = Stitches(
        xy=np.concatenate([given.xy, given.xy[-1:], given.xy]),
        op=np.concatenate([given.op, [Op.CUT], given.op]).astype(np.uint8),
        tie=np.zeros(2 * len(given.op) + 1, dtype=np.bool_),
    )
    figures = _planned(cut).figures
    assert (figures.runs, figures.thread_cuts) == (2, 1)


def test_a_stitch_that_no_field_reaches_makes_no_plan() -> None:
    assert plan_stitches(_row(90, step_mm=45), MACHINE, name="Sail", thickness_mm=3)
    far = _row(300, step_mm=150)
    assert plan_stitches(far, MACHINE, name="Sail", thickness_mm=3) is None
