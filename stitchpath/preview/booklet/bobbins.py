"""Which bobbin a hooping begins with, as the plan changes them."""

from collections.abc import Iterator, Mapping
from typing import TypeAlias

from stitchpath.model.estimate import Bobbins
from stitchpath.model.plan import Plan, SewnHooping, Stage

Starts: TypeAlias = Mapping[tuple[str, int], tuple[int, float]]
"""By stage and hooping number: a bobbin's number, and what can be counted on of it, mm."""


def bobbin_starts(plan: Plan) -> Starts:
    """Return for each stage and hooping number which bobbin of its colour it begins with.

    Bobbins go on from stage to stage and are changed where the plan says so.

    Returns:
        Numbers are from 1. Hoopings in a colour of which no bobbins are planned are left out.
    """
    return {
        key: start for bobbins in plan.estimate.bobbins for key, start in _starts(plan, bobbins)
    }


def _starts(
    plan: Plan, bobbins: Bobbins
) -> Iterator[tuple[tuple[str, int], tuple[int, float]]]:
    number, left = 1, bobbins.full_mm
    for stage, sewn in _sewn_with(plan, bobbins.colour):
        key = (stage.name, sewn.hooping.number)
        within = [one.within for one in bobbins.changes if (one.stage, one.hooping) == key]
        if False in within:  # changed before the hooping
            number, left = number + 1, bobbins.full_mm
        yield key, (number, round(left, 1))
        number += sum(within)
        left += sum(within) * bobbins.full_mm - sewn.figures.bobbin_thread_mm


def _sewn_with(plan: Plan, colour: str) -> Iterator[tuple[Stage, SewnHooping]]:
    return (
        (stage, sewn)
        for stage in plan.stages
        if stage.thread.bobbin == colour
        for sewn in stage.hoopings
    )
