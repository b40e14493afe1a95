"""Does the hoop's ring find cloth all round?

Measure: how far the ring, outside, reaches past the piece's finished edges, hooping by hooping.
A ring that grips nothing on one side holds nothing there: the edge is floated (laid on
stabiliser that the hoop grips) or extended by strips basted to it. Common practice, no source.

Limits: `machine.ring`, or a rim of 20 mm round the field. Backing and batting of a bound quilt
reach `fabric.hooping_margin` beyond its edge: where that holds the ring, nothing is advised.
What else is cut larger than the piece is not counted. The needle is safe either way, so it is a
note.
"""

from collections.abc import Iterator
from typing import Final

from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan
from stitchpath.units import Unit, format_length

CODE: Final = "ring-overhang"
_HOLD: Final = (
    "float that edge on stabiliser, or baste strips of cloth to it; sewing-order.txt says where"
)


def check(plan: Plan) -> Iterator[Finding]:
    """Say for each stage in how many hoopings the ring reaches past the piece, and how far."""
    unit = plan.project.units
    for stage in plan.stages:
        past = [
            sewn.hooping.overhang.most
            for sewn in stage.hoopings
            if sewn.hooping.overhang.most > GRID_MM
        ]
        if past:
            margin = plan.project.margin_of(stage.piece.name)
            count = len(stage.hoopings)
            where = "the hooping" if count == 1 else f"{len(past)} of {count} hoopings"
            yield Finding(
                code=CODE,
                level=Level.NOTE,
                text=f"in {where} the hoop's ring reaches past the {stage.piece.name}'s edge, "
                f"by up to {format_length(max(past), unit)}{_beyond(margin, unit)}",
                help=_HOLD if margin < max(past) else "",
                stage=stage.name,
                value=max(past),
                limit=margin,
            )


def _beyond(margin: float, unit: Unit) -> str:
    if margin == 0:
        return ""
    return f"; backing and batting reach {format_length(margin, unit)} beyond it"
