"""Refits: a hooping's stitches moved to where its marks really were."""

from dataclasses import dataclass

from stitchpath.model.hooping import Mark


@dataclass(frozen=True, slots=True, kw_only=True)
class Refit:
    """What one refit came to.

    Attributes:
        stage: The stage's name.
        number: The hooping's number.
        planned_centre: The field's centre on the piece as planned, mm.
        planned_turn_deg: Its turn as planned.
        field: Width and height of the field, mm.
        centre: The field's centre on the piece as sewn, mm.
        turn_deg: Its turn as sewn.
        scale: By how much the stitches were stretched about the planned centre; 1 for not.
        marks: The marks that were found: `field` is where, `piece` where that is among the
            stitches sewn.
        file: The name of the stitch file that was written.
    """

    stage: str
    number: int
    planned_centre: tuple[float, float]
    planned_turn_deg: float
    field: tuple[float, float]
    centre: tuple[float, float]
    turn_deg: float
    scale: float = 1.0
    marks: tuple[Mark, ...]
    file: str = ""
