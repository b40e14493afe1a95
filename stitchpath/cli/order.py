"""The order of sewing, for people and for programs: which file comes when, hooped how."""

from collections.abc import Iterator
from itertools import groupby, pairwise
from textwrap import indent
from typing import Any, Final

from stitchpath.cli.findings import cautions_of
from stitchpath.cli.hooping_lines import hooping_lines
from stitchpath.cli.hours import show_bobbins, show_sessions
from stitchpath.cli.marks import marks_table, miss_text, placing_text
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.preview.data import Files
from stitchpath.preview.words import threads_text, turned_by
from stitchpath.units import format_length

SEWING_ORDER: Final = "sewing-order.txt"


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
            ["in all: with hooping, placing, and changing thread and bobbin"],
            show_bobbins(plan),
            show_sessions(plan),
        )
        if lines
    ]
    parts.append(placing_text(sews_marks=plan.project.hoopings.sew_marks))
    parts.append(
        "Edges are named as the piece lies face up, its top at the top, however it is turned.\n"
        "The edge to the right goes through the throat of the machine: flat, or rolled up to\n"
        "the ring. Hold the weight of the rest level with the bed: drag shifts the stitches.\n"
        "Float: the edges that the ring reaches past are laid on stabiliser that the hoop\n"
        "grips, or strips of cloth are basted to them, so that the ring grips all round."
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
        facts += "".join(f"   {told}\n" for told in _turns(stage))
    if stage.miss is not None:
        facts += f"   {miss_text(stage.miss, unit)}\n"
    blocks = [
        hooping_lines(plan, stage, sewn, files[stage.name, sewn.hooping.number], turned=turned)
        for sewn, turned in zip(stage.hoopings, _turned(stage), strict=True)
    ]
    if marks := marks_table(stage, unit):
        blocks.insert(0, f"marks on the {piece.name}\n{marks}")
    return facts + "".join(f"\n{indent(block, '   ')}\n" for block in blocks).rstrip("\n")


def _turned(stage: Stage) -> list[str]:
    """Return by how much the piece is turned before each hooping; empty where it stays."""
    turns = [sewn.hooping.turn_deg for sewn in stage.hoopings]
    return [turned_by(*both) for both in pairwise([*turns[:1], *turns])]


def _turns(stage: Stage) -> Iterator[str]:
    """Say which hoopings are sewn with which edge to the right."""
    for side, group in groupby(stage.hoopings, key=_side):
        numbers = [sewn.hooping.number for sewn in group]
        which = f"hooping {numbers[0]}"
        if len(numbers) > 1:
            which = f"hoopings {numbers[0]} to {numbers[-1]}"
        yield f"{which} with the {side} edge to the right"


def _side(sewn: SewnHooping) -> str:
    return sewn.hooping.throat.side if sewn.hooping.throat else "right"
