"""What plans and files come to: a table for people, data for programs."""

from dataclasses import asdict
from typing import Any

from stitchpath.cli.placing import explain_placing
from stitchpath.cli.route import explain_route
from stitchpath.cli.tables import show_metres, show_table, show_time
from stitchpath.model.plan import Figures, Plan
from stitchpath.preview.data import route_data

_HEADS = ("stage", "hoopings", "stitches", "cuts", "time", "top thread", "bobbin", "bobbins")
_DECIMALS = 4
"""Of seconds and mm in data, as in plan.json."""


def show_summary(plan: Plan) -> str:
    """Return the stages and their sum as a table, then notes on it and the order of sewing."""
    total = plan.figures
    bobbin = plan.project.machine.bobbin
    rows: list[tuple[str, int, Figures, int]] = [
        (stage.name, len(stage.hoopings), stage.figures, stage.bobbins) for stage in plan.stages
    ]
    if len(rows) != 1:
        full = sum(stage.bobbins for stage in plan.stages)
        rows.append(("all", _hoopings(plan), total, full))
    cells = [
        (
            name,
            f"{count}",
            f"{figures.stitches:,}",
            f"{figures.thread_cuts + figures.snips:,}",
            show_time(figures.seconds),
            show_metres(figures.top_thread_mm),
            show_metres(figures.bobbin_thread_mm),
            f"{full} {bobbin}",
        )
        for name, count, figures, full in rows
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
            bobbins=sum(stage.bobbins for stage in plan.stages),
        ),
    }


def figures_data(figures: Figures, *, hoopings: int, bobbins: int) -> dict[str, Any]:
    """Return figures as data; the same keys wherever something is counted."""
    rounded = {
        name: round(value, _DECIMALS) if isinstance(value, float) else value
        for name, value in asdict(figures).items()
    }
    return {"hoopings": hoopings} | rounded | {"bobbins": bobbins}


def _hoopings(plan: Plan) -> int:
    return sum(len(stage.hoopings) for stage in plan.stages)


def _notes(plan: Plan) -> list[str]:
    names = [stage.name for stage in plan.stages]
    notes = ["time is sewing, cutting and pausing; hooping comes on top"]
    if plan.figures.snips:
        notes.append("cuts are snipped by hand: the machine leaves the threads")
    if len(names) > 1:
        notes.append(f"sew the {', then the '.join(names)}")
    if _hoopings(plan) > len(names):
        notes.append("sew a stage's hoopings by their numbers, from 01")
    return [*notes, *explain_placing(plan)] + [
        explain_route(stage, plan.project.units)
        for stage in plan.stages
        if len(stage.hoopings) < stage.route.runs or stage.route.islands
    ]
