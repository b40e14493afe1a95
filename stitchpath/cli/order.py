"""The order of sewing, for people and for programs: which file comes when, hooped how."""

from collections.abc import Iterator
from textwrap import indent
from typing import Any, Final

from stitchpath.cli.findings import cautions_of
from stitchpath.cli.marks import marks_table, miss_text, needle_text, placing_text
from stitchpath.cli.tables import show_table, show_time
from stitchpath.model.hooping import Hooping
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.preview.data import Files
from stitchpath.preview.words import basting_text
from stitchpath.units import format_length

SEWING_ORDER: Final = "sewing-order.txt"
_HEADS: Final = ("hooping", "file", "the field lies", "needle on the marks", "stitches", "time")
_LIES: Final = {
    0.0: "upright",
    90.0: "with its top to the right",
    180.0: "upside down",
    270.0: "with its top to the left",
}


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
    parts.append(placing_text(sews_marks=plan.project.hoopings.sew_marks))
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
    table = show_table(_HEADS, [_row(stage, sewn, files) for sewn in stage.hoopings])
    marks = marks_table(stage, unit)
    table += "".join(f"\n{line}" for line in _more_lines(stage))
    if stage.miss is not None:
        table += f"\n{miss_text(stage.miss)}"
    about = f"\n\nmarks on the {piece.name}\n{marks}" if marks else ""
    return facts + indent(table + about, "   ")


def _more_lines(stage: Stage) -> Iterator[str]:
    """Say which hoopings baste what, and which were refitted."""
    for sewn in stage.hoopings:
        if told := basting_text(sewn.basting):
            yield f"hooping {sewn.hooping.number}: {told}; the machine pauses after it"
        if sewn.refit is not None:
            yield (
                f"hooping {sewn.hooping.number}: refitted into {sewn.refit.file}; for hoopings "
                "that share its marks, these lie where its stitches say"
            )


def _row(stage: Stage, sewn: SewnHooping, files: Files) -> tuple[str, ...]:
    hooping = sewn.hooping
    paths = list(files[stage.name, hooping.number].values())
    endings = "".join(f", .{path.rpartition('.')[2]}" for path in paths[1:])
    return (
        f"{hooping.number}",
        f"{paths[0]}{endings}",
        _lies(hooping),
        needle_text(hooping.marks),
        f"{sewn.figures.stitches:,}",
        show_time(sewn.figures.seconds),
    )


def _lies(hooping: Hooping) -> str:
    turned = hooping.turn_deg % 360
    return _LIES.get(turned, f"turned {turned:g} degrees clockwise")
