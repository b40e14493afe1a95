"""The cutting list: what to buy, what to cut and from where, and how long it all takes."""

from collections import Counter
from collections.abc import Sequence
from typing import Final

from stitchpath.cli.hours import (
    show_bobbins,
    show_evenings,
    show_folding,
    show_sessions,
)
from stitchpath.cli.tables import show_table
from stitchpath.model.estimate import Cloth, LaidPiece
from stitchpath.model.plan import Plan
from stitchpath.model.project import Project
from stitchpath.preview.words import metres, sold_size, thread_name
from stitchpath.units import Unit, format_cloth, format_length, format_length_up, length_up

CUTTING_LIST: Final = "cutting-list.txt"


def cutting_list(plan: Plan) -> str:
    """Return what to buy and to cut, to be taken to the shop and to the table."""
    parts = [
        [f"{plan.project.name}: what to buy and to cut"],
        _shopping(plan),
        *_cloths(plan),
        _batting(plan),
        _allowances(plan),
        ["Bobbins", *show_bobbins(plan)],
    ]
    if folding := show_folding(plan):
        parts.append(["To fold it into its pocket", *folding])
    if sessions := show_sessions(plan):
        parts.append([f"At the machine: {show_evenings(plan)}", *sessions])
    return "\n\n".join("\n".join(part) for part in parts if part) + "\n"


def cutting_picture(name: str) -> str:
    """Return where in the folder the picture of a cloth with its pieces is."""
    return f"cutting/{name}.svg"


def show_shopping(plan: Plan) -> list[str]:
    """Return what to buy, one thing a line: cloths, batting, threads."""
    unit = plan.project.units
    cloths = [
        f"{cloth.name} cloth: {format_cloth(cloth.buy, unit)} of {_wide(cloth, unit)} wide"
        for cloth in plan.estimate.cloths
    ]
    threads = [
        f"{thread_name(thread.colour)} thread: {metres(thread.buy_mm)},"
        f" {_spools(thread.spools, plan.project)}"
        for thread in plan.estimate.threads
        if thread.spools
    ]
    return [*cloths, *_batting_to_buy(plan), *threads]


def _shopping(plan: Plan) -> list[str]:
    return ["To buy", *show_shopping(plan)]


def _wide(cloth: Cloth, unit: Unit) -> str:
    return format_length(cloth.usable_width, unit)


def _spools(count: int, project: Project) -> str:
    one = f"spool of {project.supplies.spool_metres:g} m"
    return f"1 {one}" if count == 1 else f"{count} {one.replace('spool', 'spools')}"


def _batting_to_buy(plan: Plan) -> list[str]:
    batting, unit = plan.estimate.batting, plan.project.units
    needed = [cut for cut in plan.cutting if cut.what.endswith("batting")]
    if not needed:
        return []
    if not batting.name:
        return ["batting: no ready-cut one is large enough; buy it by the length, or join two"]
    sold = sold_size(batting.width, batting.length, unit)
    return [f"batting: a ready-cut {batting.name}, {sold}"]


def _cloths(plan: Plan) -> list[list[str]]:
    unit = plan.project.units
    return [[_head(cloth, unit), *_laid(cloth.pieces, unit)] for cloth in plan.estimate.cloths]


def _head(cloth: Cloth, unit: Unit) -> str:
    """Return what is cut from a cloth, and the length it takes: that of the pieces as told."""
    ends = (length_up(piece.y, unit) + length_up(piece.length, unit) for piece in cloth.pieces)
    used = format_length(max(ends, default=0.0), unit)
    return f"From the {cloth.name} cloth, {used} of it, as in {cutting_picture(cloth.name)}"


def _batting(plan: Plan) -> list[str]:
    pieces = plan.estimate.batting.pieces
    head = f"From the batting, as in {cutting_picture('batting')}"
    return [head, *_laid(pieces, plan.project.units)] if pieces else []


def _laid(pieces: Sequence[LaidPiece], unit: Unit) -> list[str]:
    """Return pieces in the order in which they come off the cut end, like ones on a line."""
    heads = ("piece", "count", "across", "along", "from the selvedge", "from the cut end")
    ordered = sorted(pieces, key=lambda piece: (piece.y, piece.x))
    counts = Counter(_size(piece) for piece in pieces)
    rows = []
    for piece in ordered:
        count = counts.pop(_size(piece), 0)
        if count:
            rows.append(
                (
                    piece.what,
                    f"{count}",
                    format_length_up(piece.width, unit),
                    format_length_up(piece.length, unit),
                    format_length_up(piece.x, unit),
                    format_length_up(piece.y, unit),
                )
            )
    return [f"  {line}" for line in show_table(heads, rows).splitlines()]


def _size(piece: LaidPiece) -> tuple[str, int, int]:
    """Tell like pieces: same name, same sides to the mm."""
    return piece.what, round(piece.width), round(piece.length)


def _allowances(plan: Plan) -> list[str]:
    project, unit = plan.project, plan.project.units
    shrinkage = max(project.fabric.shrinkage, project.batting.shrinkage)
    seam = format_length(project.quilt.seam_allowance, unit)
    drawn = [f"the {stage} {_share(share)}" for stage, share in plan.estimate.draw_in]
    lines = [
        "Counted in",
        f"washing takes off {_share(shrinkage)}",
        *([f"quilting draws in {', '.join(drawn)}"] if drawn else []),
        f"seams are {seam} wide, those between panels too",
    ]
    return [*lines, *_to_hoop_by(plan)]


def _to_hoop_by(plan: Plan) -> list[str]:
    """Return what there is to hoop by at the edges, and what there has to be."""
    project, unit = plan.project, plan.project.units
    margin = project.margin_of("quilt")
    lines = []
    if margin:
        reach = format_length(margin, unit)
        lines.append(f"backing and batting reach {reach} beyond the top, to be hooped by")
    if plan.estimate.overhang > margin:
        reach = format_length_up(plan.estimate.overhang, unit)
        lines.append(f"the hoop's ring reaches up to {reach} beyond an edge")
        lines.append("baste strips of scrap to the edges, to have something to hoop by")
    return lines


def _share(share: float) -> str:
    return f"{round(share * 100, 1):g} %"
