"""The bobbin a hooping begins with follows the plan's changes."""

from dataclasses import replace

import pytest

from stitchpath.estimate.bobbins import find_changes
from stitchpath.model.estimate import BobbinChange, Bobbins, Estimate
from stitchpath.model.plan import Plan
from stitchpath.preview.booklet.bobbins import bobbin_starts
from tests.support.plans import small_plan

PLAN = small_plan()
COLOUR = PLAN.stages[0].thread.bobbin
HOOPINGS = [
    (stage, sewn)
    for stage in PLAN.stages
    if stage.thread.bobbin == COLOUR
    for sewn in stage.hoopings
]


def _wound(full_mm: float) -> tuple[Plan, list[tuple[int, float]]]:
    """Return the plan with bobbins that hold so much, and each hooping's start worked out."""
    needs = [sewn.figures.bobbin_thread_mm for _, sewn in HOOPINGS]
    changes, left_mm = find_changes(needs, full_mm)
    told = tuple(
        BobbinChange(
            stage=HOOPINGS[one.hooping][0].name,
            hooping=HOOPINGS[one.hooping][1].hooping.number,
            stitch=1,
            within=one.within,
        )
        for one in changes
    )
    bobbins = Bobbins(
        colour=COLOUR, count=len(changes) + 1, changes=told, left_mm=left_mm, full_mm=full_mm
    )
    starts = []
    for at, need in enumerate(needs):
        before, left = find_changes(needs[:at], full_mm)
        begins_full = left < need and left < full_mm
        starts.append((len(before) + 1 + begins_full, full_mm if begins_full else left))
    return replace(PLAN, estimate=Estimate(bobbins=(bobbins,))), starts


@pytest.mark.parametrize("full_mm", [600.0, 1_000.0, 1_500.0, 2_600.0, 36_000.0])
def test_every_hooping_begins_with_what_the_ones_before_it_left(full_mm: float) -> None:
    plan, expected = _wound(full_mm)
    starts = bobbin_starts(plan)
    assert list(starts) == [(stage.name, sewn.hooping.number) for stage, sewn in HOOPINGS]
    for (number, left), (its_number, its_left) in zip(starts.values(), expected, strict=True):
        assert number == its_number
        assert left == pytest.approx(its_left, abs=0.051)  # rounded to 0.1 mm


def test_hoopings_without_planned_bobbins_are_left_out() -> None:
    assert bobbin_starts(PLAN) == {}
