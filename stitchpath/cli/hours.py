"""Bobbins to change, evenings to plan, folds to make: lines for a maker."""

from collections.abc import Sequence
from dataclasses import replace

from stitchpath.cli.options import key_limits, option_time
from stitchpath.cli.usage import UsageError
from stitchpath.estimate import plan_sessions
from stitchpath.model.estimate import BobbinChange, Bobbins, Session
from stitchpath.model.piece import StageName
from stitchpath.model.plan import Plan
from stitchpath.preview.words import counted, duration, metres, thread_name

_FEW = 6
"""So many changes are named in a summary."""
_ABOUT = 100
"""Needle points are told to the hundred: no bobbin is wound more exactly."""


def show_bobbins(plan: Plan) -> list[str]:
    """Return for each colour how many bobbins to wind, then where to change them."""
    lines = []
    for bobbins in plan.estimate.bobbins:
        left = metres(bobbins.left_mm)
        lines.append(f"{_wound(plan, bobbins)}; about {left} will be left")
        lines += [f"  {_change(change)}" for change in _grouped(bobbins)]
    return lines


def show_bobbins_briefly(plan: Plan) -> list[str]:
    """Return for each colour how many bobbins to wind, and the first places to change them."""
    lines = []
    for bobbins in plan.estimate.bobbins:
        places = dict.fromkeys(hooping_name(one.stage, one.hooping) for one in bobbins.changes)
        more = [f"and {len(places) - _FEW} more"] if len(places) > _FEW else []
        told = ", ".join([*list(places)[:_FEW], *more])
        lines.append(_wound(plan, bobbins) + (f"; change before {told}" if told else ""))
    return lines


def find_evening(text: str | None) -> float | None:
    """Return the hours of an evening given as an option, or None where none is.

    Raises:
        UsageError: It is no time, or outside the limits of the project's key.
    """
    if text is None:
        return None
    low, high = key_limits("times", "evening_hours")
    hours = option_time("--evening", text, clock=False) / 3600
    if not low <= hours <= high:
        raise UsageError(
            f"--evening cannot be `{text}`\n"
            f"help: it must be between {show_hours(low)} and {show_hours(high)}"
        )
    return hours


def with_evenings(plan: Plan, hours: float) -> Plan:
    """Return a plan whose evenings have so many hours."""
    times = replace(plan.project.times, evening_hours=hours)
    sessions = plan_sessions(plan.estimate.work, hours)
    return replace(
        plan,
        project=replace(plan.project, times=times),
        estimate=replace(plan.estimate, sessions=sessions),
    )


def show_sessions(plan: Plan) -> list[str]:
    """Return what to do in which evening."""
    sessions = plan.estimate.sessions
    return [
        f"evening {place}: {_session(session)}" for place, session in enumerate(sessions, 1)
    ]


def show_evenings(plan: Plan) -> str:
    """Return in a few words how many evenings there are."""
    count, hours = len(plan.estimate.sessions), plan.project.times.evening_hours
    return f"{counted(count, 'evening')} of {show_hours(hours)}"


def show_hours(hours: float) -> str:
    """Return hours as a maker reads them.

    Example:
        >>> show_hours(2.0), show_hours(1.5), show_hours(0.25)
        ('2 h', '1 h 30 min', '15 min')
    """
    return duration(hours * 3600).removesuffix(" 0 min")


def show_folding(plan: Plan) -> list[str]:
    """Return the steps that fold the quilt into its pocket; none without a pocket."""
    folding = plan.estimate.folding
    steps: Sequence[str] = () if folding is None else folding.steps
    return [f"{place}. {step}" for place, step in enumerate(steps, 1)]


def handling_seconds(plan: Plan, stage: str) -> float:
    """Return the time for hooping, placing and changing threads in a stage."""
    return sum(one.handling for one in plan.estimate.work if one.stage == stage)


def hooping_handling(plan: Plan, stage: str, number: int) -> float:
    """Return the same for one hooping."""
    return sum(
        one.handling
        for one in plan.estimate.work
        if (one.stage, one.hooping) == (stage, number)
    )


def _wound(plan: Plan, bobbins: Bobbins) -> str:
    wound = counted(bobbins.count, f"{plan.project.machine.bobbin} bobbin")
    return f"{thread_name(bobbins.colour)}: wind {wound}"


def _grouped(bobbins: Bobbins) -> list[BobbinChange]:
    """Return the changes, without those within a hooping but the first of it."""
    seen: set[tuple[str, int, bool]] = set()
    told = []
    for change in bobbins.changes:
        key = (change.stage, change.hooping, change.within)
        if key not in seen:
            told.append(change)
        seen.add(key)
    return told


def _change(change: BobbinChange) -> str:
    place = hooping_name(change.stage, change.hooping)
    about = max(_ABOUT, round(change.stitch / _ABOUT) * _ABOUT)
    if change.within:
        return (
            f"no bobbin lasts for {place}: begin it full, change every {about:,} stitches or so"
        )
    return f"change before {place}: it would run out there after about {about:,} stitches"


def _session(session: Session) -> str:
    first, last = hooping_name(*session.first), hooping_name(*session.last)
    time = duration(session.seconds)
    if session.hoopings == 1:
        over = ", longer than the evening" if session.over else ""
        return f"{first}: 1 hooping, {time}{over}"
    return f"{first} to {last}: {session.hoopings} hoopings, {time}"


def hooping_name(stage: StageName, number: int) -> str:
    """Return a hooping as its files and pictures are called, such as `quilt 07`."""
    return f"{stage} {number:02}"
