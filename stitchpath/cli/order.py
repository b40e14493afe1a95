"""The order of sewing, for people and for programs: which file comes when, hooped how."""

from collections.abc import Iterator
from dataclasses import asdict
from itertools import groupby
from textwrap import indent
from typing import Any, Final

from stitchpath.cli.findings import cautions_of
from stitchpath.cli.hours import hooping_handling, show_bobbins, show_sessions
from stitchpath.cli.marks import marks_table, miss_text, needle_text, placing_text
from stitchpath.cli.tables import show_table
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.model.hooping import Hooping
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.preview.data import Files
from stitchpath.preview.words import (
    basting_text,
    duration,
    field_lies,
    later_threads_text,
    threads_text,
    turned_by,
)
from stitchpath.units import Unit, format_length

SEWING_ORDER: Final = "sewing-order.txt"
_HEADS: Final = (
    "hooping",
    "file",
    "the field lies",
    "to the right",
    "ring past the edge",
    "needle on the marks",
    "stitches",
    "time",
    "in all",
)


def sewing_order(plan: Plan, files: Files) -> str:
    """Return what to sew in which order, to be read beside the machine.

    Args:
        plan: What is sewn.
        files: The stitch files of each stage and hooping number, by format.
    """
    parts = [f"{plan.project.name}: what to sew, in this order"]
    parts += [
        _stage_text(plan, stage, files, place) for place, stage in enumerate(plan.stages, 1)
    ]
    parts += [
        "\n".join(lines)
        for lines in (
            ["In all is with hooping, placing, and changing thread and bobbin."],
            show_bobbins(plan),
            show_sessions(plan),
        )
        if lines
    ]
    parts.append(placing_text(sews_marks=plan.project.hoopings.sew_marks))
    parts.append(
        "The edge to the right goes through the throat of the machine: flat, or rolled up to\n"
        "the ring. Hold the weight of the rest level with the bed: drag shifts the stitches.\n"
        "Where the ring reaches past an edge, float that edge on stabiliser that the hoop\n"
        "grips, or baste strips of cloth to it, so that the ring grips all round."
    )
    parts.append("\n".join(f"- {caution}" for caution in cautions_of(plan)))
    return "\n\n".join(parts) + "\n"


def order_data(plan: Plan, files: Files) -> list[dict[str, Any]]:
    """Return the same order as data: one entry for each hooping."""
    return [
        {
            "stage": stage.name,
            "hooping": sewn.hooping.number,
            "files": dict(files[stage.name, sewn.hooping.number]),
        }
        for stage in plan.stages
        for sewn in stage.hoopings
    ]


def _stage_text(plan: Plan, stage: Stage, files: Files, place: int) -> str:
    piece, unit = stage.piece, plan.project.units
    size = f"{format_length(piece.width, unit)} x {format_length(piece.length, unit)}"
    facts = f"{place}. {stage.name}: on the {piece.name} of {size}\n   {threads_text(stage)}\n"
    if len(stage.hoopings) > 1:
        facts += f"   {_turns(stage)}\n"
    table = show_table(_HEADS, [_row(plan, stage, sewn, files) for sewn in stage.hoopings])
    marks = marks_table(stage, unit)
    table += "".join(f"\n{line}" for line in _more_lines(stage))
    if stage.miss is not None:
        table += f"\n{miss_text(stage.miss)}"
    about = f"\n\nmarks on the {piece.name}\n{marks}" if marks else ""
    return facts + indent(table + about, "   ")


def _turns(stage: Stage) -> str:
    """Say which hoopings are sewn with which edge in the throat, and when to turn the piece."""
    parts: list[str] = []
    before = 0.0
    for turn_deg, group in groupby(stage.hoopings, key=lambda sewn: sewn.hooping.turn_deg):
        hoopings = [sewn.hooping for sewn in group]
        which = f"hooping {hoopings[0].number}"
        if len(hoopings) > 1:
            which = f"hoopings {hoopings[0].number} to {hoopings[-1].number}"
        if parts:
            turned = turned_by(before, turn_deg)
            parts.append(f"then turn the {stage.piece.name} by {turned:g} degrees")
        side = hoopings[0].throat.side if hoopings[0].throat else "right"
        parts.append(f"{which} with the {side} edge to the right")
        before = turn_deg
    return "\n   ".join(parts)


def _more_lines(stage: Stage) -> Iterator[str]:
    """Say which hoopings baste what, change threads, or were refitted."""
    for sewn in stage.hoopings:
        if told := basting_text(sewn.basting):
            yield f"hooping {sewn.hooping.number}: {told}; the machine pauses after it"
        if told := later_threads_text(stage, sewn):
            yield f"hooping {sewn.hooping.number}: {told}"
        if sewn.refit is not None:
            yield (
                f"hooping {sewn.hooping.number}: refitted into {sewn.refit.file}; for hoopings "
                "that share its marks, these lie where its stitches say"
            )


def _row(plan: Plan, stage: Stage, sewn: SewnHooping, files: Files) -> tuple[str, ...]:
    hooping, unit = sewn.hooping, plan.project.units
    paths = list(files[stage.name, hooping.number].values())
    endings = "".join(f", .{path.rpartition('.')[2]}" for path in paths[1:])
    return (
        f"{hooping.number}",
        f"{paths[0]}{endings}",
        field_lies(hooping),
        _in_throat(hooping, unit),
        _past_edge(hooping, unit),
        needle_text(hooping.marks),
        f"{sewn.figures.stitches:,}",
        duration(sewn.figures.seconds),
        duration(sewn.figures.seconds + hooping_handling(plan, stage.name, hooping.number)),
    )


def _in_throat(hooping: Hooping, unit: Unit) -> str:
    """Return the edge that lies in the throat, and the roll that it makes there."""
    throat = hooping.throat
    if throat is None:
        return "-"
    if throat.roll == 0:
        return f"{throat.side} edge, flat"
    fits = "" if throat.fits else ": too thick"
    return f"{throat.side} edge, roll of {format_length(throat.roll, unit)}{fits}"


def _past_edge(hooping: Hooping, unit: Unit) -> str:
    """Return how far the ring reaches past which edges."""
    past = asdict(hooping.overhang)
    told = [f"{side} {format_length(far, unit)}" for side, far in past.items() if far > GRID_MM]
    return ", ".join(told) or "-"
