"""The order of sewing, for people and for programs: which file comes when, hooped how."""

from typing import Any, Final

from stitchpath.cli.findings import cautions_of
from stitchpath.cli.tables import show_table, show_time
from stitchpath.model.hooping import Mark
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.preview.data import Files
from stitchpath.preview.words import field_lies
from stitchpath.units import Unit, format_length

SEWING_ORDER: Final = "sewing-order.txt"
_HEADS: Final = ("hooping", "file", "mark A", "mark B", "the field lies", "stitches", "time")


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
    parts.append(
        "Marks are on the piece as it lies face up: so far from its finished left edge / from\n"
        "its top edge; minus is beyond the edge. Hoop so that the needle can be lowered on\n"
        "both. The pictures in the folder preview show where they are in the field."
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
    thread, piece, unit = stage.thread, stage.piece, plan.project.units
    size = f"{format_length(piece.width, unit)} x {format_length(piece.length, unit)}"
    bobbins = f"{stage.bobbins} {plan.project.machine.bobbin}"
    facts = (
        f"{place}. {stage.name}: on the {piece.name} of {size}\n"
        f"   needle thread {thread.top}, bobbin thread {thread.bobbin}, bobbins: {bobbins}\n"
    )
    table = show_table(_HEADS, [_row(stage, sewn, files, unit) for sewn in stage.hoopings])
    return facts + "\n".join(f"   {line}" for line in table.splitlines())


def _row(stage: Stage, sewn: SewnHooping, files: Files, unit: Unit) -> tuple[str, ...]:
    hooping = sewn.hooping
    marks = {mark.name: mark for mark in hooping.marks}
    paths = list(files[stage.name, hooping.number].values())
    endings = "".join(f", .{path.rpartition('.')[2]}" for path in paths[1:])
    return (
        f"{hooping.number}",
        f"{paths[0]}{endings}",
        _mark_text(marks.get("A"), unit),
        _mark_text(marks.get("B"), unit),
        field_lies(hooping),
        f"{sewn.figures.stitches:,}",
        show_time(sewn.figures.seconds),
    )


def _mark_text(mark: Mark | None, unit: Unit) -> str:
    if mark is None:
        return "-"
    return " / ".join(format_length(distance, unit) for distance in mark.piece)
