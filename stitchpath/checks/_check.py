"""Runs every check on a plan, silences what the project silences, and puts the worst first."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Final

from stitchpath.checks import cautions
from stitchpath.listing import member, member_names
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan

_ROOM: Final = "stitchpath.checks"
_WORST_FIRST: Final = {level: rank for rank, level in enumerate(Level)}
_CANNOT_BE_SILENCED: Final = frozenset({cautions.CODE})


def check_names() -> tuple[str, ...]:
    """Return the names of the checks that a project may silence, in alphabetical order."""
    return tuple(name for name in member_names(_ROOM) if name not in _CANNOT_BE_SILENCED)


def check_plan(plan: Plan, said: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return what all checks say of a plan, and what was said while planning, worst first.

    Notes with advice come before those that only measure. A silenced check's warnings and notes
    become notes that carry the reason, and come last but for the cautions. Errors are never
    silenced: they are told as if nobody had asked.

    Args:
        plan: The plan; its own findings are not looked at.
        said: What the stages of planning had to say already.
    """
    found = [*said]
    for name in member_names(_ROOM):
        found += member(_ROOM, name).check(plan)
    return tuple(sorted(_silenced(found, plan), key=_place))


def _silenced(found: list[Finding], plan: Plan) -> Iterator[Finding]:
    reasons: dict[str, str] = {}
    for silence in plan.project.checks.silence:
        before = reasons.get(silence.check)
        reasons[silence.check] = f"{before}; {silence.reason}" if before else silence.reason
    for finding in found:
        reason = reasons.get(finding.code, "")
        if finding.level is Level.ERROR or not reason:
            yield finding
        else:
            yield replace(finding, level=Level.NOTE, help="", silenced=reason)
    yield from _in_vain(found, reasons)


def _in_vain(found: list[Finding], reasons: Iterable[str]) -> Iterator[Finding]:
    """Say which checks are silenced though they have nothing to advise."""
    heard = {one.code for one in found if one.help or one.level is not Level.NOTE}
    for name in reasons:
        if name not in heard:
            yield Finding(
                code=name,
                level=Level.NOTE,
                text=f"{name} is silenced, but has nothing to warn of",
                help="take its [[checks.silence]] out, so that it can speak when it has to",
            )


def _place(finding: Finding) -> tuple[int, bool, bool, bool]:
    """Return a key to sort by: worst first; notes that only measure later, cautions last."""
    is_caution = finding.code in _CANNOT_BE_SILENCED
    measures_only = finding.level is Level.NOTE and not finding.help
    return _WORST_FIRST[finding.level], is_caution, bool(finding.silenced), measures_only
