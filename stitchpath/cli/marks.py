"""How each hoop finds its place, in words and tables for someone at the machine."""

from typing import Final

from stitchpath.cli.tables import show_table
from stitchpath.model.plan import JoinMiss, Stage
from stitchpath.preview.words import MARK_HEADS, mark_measures
from stitchpath.units import Unit, format_small_length

_DRAWN: Final = """
- The tables of marks say where each cross lies on the piece, face up: from its finished edges,
  and from its middle. Draw it with ink that you have tested on a scrap; templates.pdf shows it
  at true scale."""
_SEWN: Final = """
- The tables of marks say where each cross lies on the piece, face up: from its finished edges,
  and from its middle. A new mark is not on the piece yet: measure for it and draw it, with ink
  that you have tested on a scrap. The hooping bastes it before its other stitches, and later
  hoopings are placed by that cross.
- Errors add up from hooping to hooping that way; crosses drawn before the first hooping do
  better. Draw the basting threads out when the quilt is done."""
_PLACING: Final = """
- Each hooping names its marks, and where the needle has to be on each: so many mm from the
  field's centre, x to the right and y down. Minus is to the left, or up.
- Lay the piece as it is told, and hoop it so that the two marks are about where they have to
  be. With the machine stopped, move the field to the first place and lower the needle by the
  hand wheel: it has to land on the mark. Do the same on the second; others are there to check
  by.
- Where the needle does not land on the mark, move the field with the machine's keys until it
  does, and write down the position that the machine shows; the same on the second mark. Then
    stitchpath refit PROJECT --stage STAGE --hooping N --mark A=x,y --mark B=x,y --out FILE
  writes this hooping's stitches moved to where the marks really are. Positions are in mm; for
  a machine that counts up from the field's centre, turn the sign of y round. Sew FILE instead.
- Where refit says that the cloth is stretched, or that stitches would leave the field, take the
  piece out and hoop it again: no file mends that."""


def placing_text(*, sews_marks: bool) -> str:
    """Return how a hoop is placed by its marks, and what to do where they are missed."""
    return f"How to place the hoop\n{_SEWN if sews_marks else _DRAWN}{_PLACING}"


def marks_table(stage: Stage, unit: Unit) -> str:
    """Return where a stage's marks lie on its piece, in the project's unit.

    Distances are from the finished edges; minus is beyond the edge.
    """
    rows = [(mark.name, *mark_measures(mark.place, stage.piece, unit)) for mark in stage.marks]
    return show_table(MARK_HEADS[:-1], rows) if rows else ""


def miss_text(miss: JoinMiss, unit: Unit) -> str:
    """Return how far joins can be expected to be off, for someone who looks at one.

    Example:
        >>> from stitchpath.model.hooping import Join
        >>> at = Join(place=(9.0, 9.0), hoopings=(1, 2), is_on_crossing=True)
        >>> miss = JoinMiss(by_marks_mm=1.94, by_marks_at=at, typical_mm=1.7, chained_mm=5.24,
        ...                 chained_at=at)
        >>> miss_text(miss, "mm")
        'joins: 95 of 100 miss by less than 1.7 mm, 1.9 mm at the worst place'
    """
    return (
        f"joins: 95 of 100 miss by less than {format_small_length(miss.typical_mm, unit)}, "
        f"{format_small_length(miss.by_marks_mm, unit)} at the worst place"
    )
