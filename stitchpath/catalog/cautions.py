"""The usual cautions. They defer to the machine's manual and local rules; no legal advice."""

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

Occasion: TypeAlias = Literal["always", "moved-hoop", "pocket", "thick"]
"""When a caution is due: in every project, where the hoop is placed more than once, where a
pocket makes a cushion of a quilt, where the needle goes through much."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """One caution.

    Attributes:
        name: One word.
        when: When it is due.
        text: A phrase for a maker.
        source: Where it comes from; see docs/sources.md.
    """

    name: str
    when: Occasion = "always"
    text: str
    source: str = "common practice, no source"


THICK_MM: Final = 6.0
"""A sandwich from which on a needle breaks easily. Common practice, no source."""

CAUTIONS: Final = (
    Caution(
        name="hands",
        text="keep hands out of the field while the machine runs, and stop it "
        "to clear a thread",
    ),
    Caution(
        name="needle",
        text="trace each hooping's outline before sewing, so that the needle "
        "cannot meet the ring",
    ),
    Caution(
        name="pins",
        text="no pins inside the field; never leave the machine running unattended",
    ),
    Caution(
        name="thick",
        when="thick",
        text="a needle can break in so much cloth: sew it slowly, and protect your eyes",
    ),
    Caution(
        name="weight",
        when="moved-hoop",
        text="hold the quilt's weight level with the bed: what drags moves the hoop",
    ),
    Caution(
        name="ink",
        text="try marking ink on a scrap with iron and freezer: heat may set it, "
        "cold bring it back",
        source="pen labels and testers",
    ),
    Caution(
        name="infants",
        text="loose quilts and cushions do not belong in a sleeping baby's cot",
        source="American Academy of Pediatrics, 2022",
    ),
    Caution(
        name="fire",
        text="keep it from fire and heaters; if you sell it, ask which "
        "flammability rules apply",
        source="16 CFR 1610, 1632; ISO 12952",
    ),
    Caution(
        name="cushion",
        when="pocket",
        text="folded it is a cushion: rules for cushions may apply besides those for covers",
        source="UK furniture and furnishings (fire) (safety) regulations 1988",
    ),
    Caution(
        name="manual",
        text="the machine's manual and local rules come before anything written here",
    ),
)
"""In the order in which they are told."""
