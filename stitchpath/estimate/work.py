"""A hooping's whole time at the machine, and how hoopings fill evenings.

Formula. Work = the file's own time + hooping and placing + changing the top thread where it
differs from the hooping before + changing the bobbin for each change and each new colour. An
evening takes hoopings in their order as long as they fit; a hooping is never broken off, since
cloth that was unhooped cannot be placed exactly as it was.

Source: hooping by hand 5 min, threading 1 min, a hooping of a quilt 5 to 15 min: common
practice, no source; all are project keys. Limits: no breaks, no mending, no clearing up.
"""

from collections import Counter
from collections.abc import Sequence

from stitchpath.model.estimate import Bobbins, Session, Work
from stitchpath.model.piece import StageName
from stitchpath.model.plan import Stage
from stitchpath.model.supplies import Times

_MINUTE = 60.0
_HOUR = 3600.0


def work_times(
    stages: Sequence[Stage], bobbins: Sequence[Bobbins], times: Times
) -> tuple[Work, ...]:
    """Return the work of each hooping, in the order of sewing."""
    changes: Counter[tuple[StageName, int]] = Counter(
        (change.stage, change.hooping) for wound in bobbins for change in wound.changes
    )
    placing = (times.hooping_minutes + times.placing_minutes) * _MINUTE
    top, under = "", ""
    work: list[Work] = []
    for stage in stages:
        for sewn in stage.hoopings:
            number = sewn.hooping.number
            new_top, new_under = stage.thread.top != top, stage.thread.bobbin != under
            top, under = stage.thread.top, stage.thread.bobbin
            filled = changes[stage.name, number] + new_under
            work.append(
                Work(
                    stage=stage.name,
                    hooping=number,
                    sewing=sewn.figures.seconds,
                    placing=placing,
                    thread=new_top * times.thread_minutes * _MINUTE,
                    bobbin=filled * times.bobbin_minutes * _MINUTE,
                )
            )
    return tuple(work)


def plan_sessions(work: Sequence[Work], evening_hours: float) -> tuple[Session, ...]:
    """Return which hoopings are done in which evening.

    Example:
        >>> day = [Work(stage="quilt", hooping=n, sewing=3000, placing=480, thread=0, bobbin=0)
        ...        for n in (1, 2, 3)]
        >>> [(session.last[1], session.hoopings) for session in plan_sessions(day, 2)]
        [(2, 2), (3, 1)]
    """
    evenings: list[list[Work]] = []
    left = 0.0
    for one in work:
        if not evenings or left < one.seconds:
            evenings.append([])
            left = evening_hours * _HOUR
        evenings[-1].append(one)
        left -= one.seconds
    return tuple(_session(evening, evening_hours) for evening in evenings)


def _session(evening: Sequence[Work], evening_hours: float) -> Session:
    seconds = sum(one.seconds for one in evening)
    first, last = evening[0], evening[-1]
    return Session(
        first=(first.stage, first.hooping),
        last=(last.stage, last.hooping),
        hoopings=len(evening),
        seconds=seconds,
        over=evening_hours * _HOUR < seconds,
    )
