"""What a plan comes to: a table for people, data for programs."""

from dataclasses import asdict
from typing import Any

from stitchpath.cli.tables import show_metres, show_table, show_time
from stitchpath.model.plan import Figures, Plan

_HEADS = ("stage", "hoopings", "stitches", "cuts", "time", "top thread", "bobbin", "bobbins")


def show_summary(plan: Plan) -> str:
    """Return the stages and their sum as a table, and what the figures leave out."""
    total = plan.figures
    bobbin = plan.project.machine.bobbin
    rows: list[tuple[str, int, Figures, int]] = [
        (stage.name, len(stage.hoopings), stage.figures, stage.bobbins) for stage in plan.stages
    ]
    rows.append(("all", sum(row[1] for row in rows), total, sum(row[3] for row in rows)))
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
    notes = ["time is sewing, cutting and pausing; hooping comes on top"]
    if total.snips:
        notes.append("cuts are snipped by hand: the machine leaves the threads")
    return "\n".join([show_table(_HEADS, cells), *notes])


def summary_data(plan: Plan) -> dict[str, Any]:
    """Return the same as data, lengths in mm."""
    return {
        "name": plan.project.name,
        "stages": [
            {
                "name": stage.name,
                "hoopings": len(stage.hoopings),
                **asdict(stage.figures),
                "bobbins": stage.bobbins,
            }
            for stage in plan.stages
        ],
        "totals": {
            "hoopings": sum(len(stage.hoopings) for stage in plan.stages),
            **asdict(plan.figures),
            "bobbins": sum(stage.bobbins for stage in plan.stages),
        },
    }
