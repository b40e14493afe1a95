"""Bobbins: whole ones, a tenth of each left unused (common practice, no source)."""

from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.catalog.bobbins import BOBBINS
from stitchpath.estimate import bobbins_for, count_bobbins
from stitchpath.estimate.bobbins import find_changes, usable_mm, wind_bobbins
from stitchpath.model.machine import Machine
from stitchpath.model.project import Batting, Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.stitches import Op, Stitches
from stitchpath.model.supplies import Supplies
from stitchpath.pipeline import plan
from tests.support.plans import small_plan

needs = st.lists(st.floats(0, 400), max_size=12)


@pytest.mark.parametrize("bobbin", BOBBINS)
def test_a_bobbin_is_changed_before_it_runs_out(bobbin: str) -> None:
    usable = 0.9 * BOBBINS[bobbin].thread_mm
    assert count_bobbins(usable, bobbin) == 1
    assert count_bobbins(usable + 1, bobbin) == 2
    assert count_bobbins(5 * usable - 1, bobbin) == 5


def test_no_thread_takes_no_bobbin() -> None:
    assert count_bobbins(0, "M") == 0
    assert bobbins_for([], "M") == 0


def test_a_bobbin_holds_the_same_weight_of_any_thread() -> None:
    """Wound volume is the same, so twice the tex is half the length (derived)."""
    assert usable_mm("L", tex=40) == pytest.approx(usable_mm("L", tex=20) / 2)


def test_a_bobbin_is_changed_before_the_hooping_in_which_it_would_run_out() -> None:
    """30 + 30 of 100, then 50: 40 are left, so a new one goes in and 50 of it stay."""
    (change,), left = find_changes([30, 30, 50], 100)
    assert (change.hooping, change.at_mm, change.within) == (2, 40, False)
    assert left == 50


def test_a_hooping_that_no_bobbin_lasts_for_is_begun_with_a_full_one() -> None:
    changes, left = find_changes([10, 250], 100)
    assert [(one.hooping, one.at_mm, one.within) for one in changes] == [
        (1, 90, False),
        (1, 100, True),
        (1, 200, True),
    ]
    assert left == 50


@given(needs_mm=needs, full=st.floats(50, 200))
def test_no_bobbin_gives_more_than_it_holds(needs_mm: list[float], full: float) -> None:
    """Sewn on each bobbin, change after change; together it is all there is to sew."""
    changes, left = find_changes(needs_mm, full)
    used, sewn_in = 0.0, 0.0
    pending = list(changes)
    total = 0.0
    for hooping, need in enumerate(needs_mm):
        sewn_in = 0.0
        while pending and pending[0].hooping == hooping:
            change = pending.pop(0)
            if change.within:
                used += change.at_mm - sewn_in
                sewn_in = change.at_mm
            assert used <= full + 1e-6
            total, used = total + used, 0.0
        used += need - sewn_in
        assert used <= full + 1e-6
    assert not pending
    assert total + used == pytest.approx(sum(needs_mm))
    assert left == pytest.approx(full - used)


@given(needs_mm=needs)
def test_early_changes_cost_less_than_twice_the_bobbins(needs_mm: list[float]) -> None:
    changes, _ = find_changes(needs_mm, 200)
    assert len(changes) <= 2 * sum(needs_mm) / 200


def test_bobbins_of_one_colour_go_on_from_stage_to_stage() -> None:
    stages = small_plan().stages
    (bobbins,) = wind_bobbins(stages, Project(quilt=Quilt(width=360, length=480)))
    assert (bobbins.colour, bobbins.count, bobbins.changes) == ("#faf0e6", 1, ())
    assert bobbins.left_mm == pytest.approx(36_000 - 5 * 1000)


def test_where_a_bobbin_runs_out_is_told_by_its_needle_point() -> None:
    """Told against a plain loop over the stitches, each of which takes its length and 3 mm."""
    throw = Project(
        quilt=Quilt(width=800, length=1000, edge_stitch=0, quilting=(Quilting(spacing=25),)),
        batting=Batting(thickness=3),
        machine=Machine(bobbin="L", field=(300, 400)),
        supplies=Supplies(thread_tex=30),
    )
    planned = plan(throw)
    (bobbins,) = planned.estimate.bobbins
    full = usable_mm("L", tex=30)
    assert bobbins.count == len(bobbins.changes) + 1
    assert bobbins.changes
    told = {one.hooping: one.stitch for one in bobbins.changes if not one.within}
    left = full
    for sewn in planned.stages[0].hoopings:
        if sewn.hooping.number in told:
            assert told.pop(sewn.hooping.number) == _needle_points(sewn.stitches, left)
            left = full
        left -= sewn.figures.bobbin_thread_mm
        assert left >= 0
    assert not told


def _needle_points(stitches: Stitches, thread_mm: float) -> int:
    """Count needle points until a length of thread is used."""
    count, before = 0, None
    for (x, y), op in zip(stitches.xy.tolist(), stitches.op.tolist(), strict=True):
        if op == Op.STITCH:
            count += 1
            if before is not None:
                thread_mm -= hypot(x - before[0], y - before[1]) + 3
            before = (x, y)
        elif op == Op.JUMP:
            before = None
        if thread_mm <= 0:
            break
    return count
