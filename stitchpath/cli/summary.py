"""What plans and files come to: a table for people, data for programs."""

from dataclasses import asdict
from typing import Any

from stitchpath.cli.hours import handling_seconds, show_bobbins_briefly, show_evenings
from stitchpath.cli.placing import explain_placing
from stitchpath.cli.route import explain_route
from stitchpath.cli.tables import show_table
from stitchpath.model.plan import Figures, Plan
from stitchpath.preview.data import route_data
from stitchpath.preview.words import duration, metres

_HEADS = (
    "stage", "hoopings", "stitches", "cuts", "time", "in all", "top thread", "bobbin",
    "bobbins",
)  # fmt: skip
_DECIMALS = 4
"""Of seconds and mm in data, as in plan.json."""


def show_summary(plan: Plan) -> str:
    """Return the stages and their sum as a table, then notes on it and the order of sewing."""
    total = plan.figures
    bobbin = plan.project.machine.bobbin
    rows: list[tuple[str, int, Figures, float, int]] = [
        (
            stage.name,
            len(stage.hoopings),
            stage.figures,
            handling_seconds(plan, stage.name),
            stage.bobbins,
        )
        for stage in plan.stages
    ]
    if len(rows) != 1:
        rows.append(("all", _hoopings(plan), total, _handling(plan), _wound(plan)))
    cells = [
        (
            name,
            f"{count}",
            f"{figures.stitches:,}",
            f"{figures.thread_cuts + figures.snips:,}",
            duration(figures.seconds),
            duration(figures.seconds + handling),
            metres(figures.top_thread_mm),
            metres(figures.bobbin_thread_mm),
            f"{full} {bobbin}",
        )
        for name, count, figures, handling, full in rows
    ]
    return "\n".join([show_table(_HEADS, cells), *_notes(plan)])


def summary_data(plan: Plan) -> dict[str, Any]:
    """Return the same as data, lengths in mm; a stage's route as in plan.json."""
    return {
        "name": plan.project.name,
        "stages": [
            {"name": stage.name}
            | figures_data(stage.figures, hoopings=len(stage.hoopings), bobbins=stage.bobbins)
            | {"route": route_data(stage.route)}
            for stage in plan.stages
        ],
        "totals": figures_data(
            plan.figures,
            hoopings=_hoopings(plan),
            bobbins=_wound(plan),
        ),
    }


def figures_data(figures: Figures, *, hoopings: int, bobbins: int) -> dict[str, Any]:
    """Return figures as data; the same keys wherever something is counted."""
    rounded = {
        name: round(value, _DECIMALS) if isinstance(value, float) else value
        for name, value in asdict(figures).items()
    }
    return {"hoopings": hoopings} | rounded | {"bobbins": bobbins}


def _handling(plan: Plan) -> float:
    return sum(handling_seconds(plan, stage.name) for stage in plan.stages)


def _wound(plan: Plan) -> int:
    """Count the bobbins of all colours; one goes on from stage to stage."""
    return sum(bobbins.count for bobbins in plan.estimate.bobbins)


def _hoopings(plan: Plan) -> int:
    return sum(len(stage.hoopings) for stage in plan.stages)


def _notes(plan: Plan) -> list[str]:
    names = [stage.name for stage in plan.stages]
    notes = [
        "time is the machine's; in all is with hooping, placing and changing threads",
        f"in all that is {show_evenings(plan)}",
        *show_bobbins_briefly(plan),
    ]
    if 0 < _wound(plan) < sum(stage.bobbins for stage in plan.stages):
        notes.append("a bobbin goes on to the next stage with its colour")
    if plan.figures.snips:
        notes.append("cuts are snipped by hand: the machine leaves the threads")
    if len(names) > 1:
        notes.append(f"sew the {', then the '.join(names)}")
    if _hoopings(plan) > len(names):
        notes.append("sew a stage's hoopings by their numbers, from 01")
    return [*notes, *explain_placing(plan)] + [
        line
        for stage in plan.stages
        if len(stage.hoopings) < stage.route.runs or stage.route.islands
        for line in explain_route(stage, plan.project.units)
    ]
