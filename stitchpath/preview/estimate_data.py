"""What a plan is estimated to come to, as data for plan.json: lengths in mm, times in s."""

from dataclasses import asdict
from typing import Any

from stitchpath.model.estimate import Session
from stitchpath.model.plan import Plan
from stitchpath.preview.rounding import rounded


def estimate_data(plan: Plan) -> dict[str, Any]:
    """Return what is estimated, by its keys in plan.json, as plain values that JSON can hold.

    `folding` is null without a pocket, `buying.batting` where no ready-cut one is large enough,
    or none is needed.
    """
    estimate = plan.estimate
    batting = estimate.batting
    folding = estimate.folding
    found: dict[str, Any] = _plain(
        {
            "buying": {
                "cloth": [asdict(cloth) for cloth in estimate.cloths],
                "batting": asdict(batting) if batting.name else None,
                "thread": [asdict(thread) for thread in estimate.threads],
                "bobbins": [asdict(bobbins) for bobbins in estimate.bobbins],
            },
            "draw_in": dict(estimate.draw_in),
            "overhang": estimate.overhang,
            "folding": None if folding is None else asdict(folding),
            "work": [asdict(work) | {"seconds": work.seconds} for work in estimate.work],
            "sessions": [_session(session) for session in estimate.sessions],
        }
    )
    return found


def _session(session: Session) -> dict[str, Any]:
    ends = {
        name: {"stage": stage, "hooping": number}
        for name, (stage, number) in (("first", session.first), ("last", session.last))
    }
    rest = {"hoopings": session.hoopings, "seconds": session.seconds, "over": session.over}
    return ends | rest


def _plain(value: Any) -> Any:  # noqa: ANN401 - whatever JSON can hold
    """Round every number with decimals, and make lists of tuples."""
    if isinstance(value, dict):
        return {key: _plain(item) for key, item in value.items()}
    if isinstance(value, tuple | list):
        return [_plain(item) for item in value]
    return rounded(value) if isinstance(value, float) else value
