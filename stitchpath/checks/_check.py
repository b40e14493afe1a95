"""Runs every check on a plan."""

from typing import Final

from stitchpath.listing import member, member_names
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan

_ROOM: Final = "stitchpath.checks"
_WORST_FIRST: Final = {level: rank for rank, level in enumerate(Level)}


def check_plan(plan: Plan, said: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return what all checks say of a plan, and what was said while planning, worst first.

    Args:
        plan: The plan; its own findings are not looked at.
        said: What the stages of planning had to say already.
    """
    findings = list(said)
    for name in member_names(_ROOM):
        findings += member(_ROOM, name).check(plan)
    return tuple(sorted(findings, key=lambda finding: _WORST_FIRST[finding.level]))
