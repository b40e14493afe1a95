"""Battings by filling, with the widest unquilted gap to expect. The wrapper's own figure wins.

Gaps: ranges given by quilting teachers and guild pages, see docs/sources.md; the lower end of
each range is taken.
"""

from dataclasses import dataclass
from typing import Final


@dataclass(frozen=True, slots=True, kw_only=True)
class Batting:
    """One kind of filling.

    Attributes:
        name: A short name.
        quilting_distance_mm: The widest gap to leave unquilted.
        shrinkage: What the first wash takes, as a fraction.
        summary: One line for a listing.
    """

    name: str
    quilting_distance_mm: float
    shrinkage: float
    summary: str


BATTINGS: Final[dict[str, Batting]] = {
    batting.name: batting
    for batting in (
        Batting(
            name="cotton",
            quilting_distance_mm=13,
            shrinkage=0.05,
            summary="plain cotton, not bonded: lines 13 mm (1/2 in) apart or closer",
        ),
        Batting(
            name="cotton-scrim",
            quilting_distance_mm=203,
            shrinkage=0.04,
            summary="cotton needle-punched through a scrim: up to 203 mm (8 in)",
        ),
        Batting(
            name="cotton-polyester",
            quilting_distance_mm=51,
            shrinkage=0.03,
            summary="cotton and polyester, 80/20: up to 51 mm (2 in)",
        ),
        Batting(
            name="wool",
            quilting_distance_mm=76,
            shrinkage=0.02,
            summary="wool: up to 76 mm (3 in)",
        ),
        Batting(
            name="polyester",
            quilting_distance_mm=51,
            shrinkage=0.0,
            summary="bonded polyester: up to 51 mm (2 in)",
        ),
        Batting(
            name="unknown",
            quilting_distance_mm=25,
            shrinkage=0.05,
            summary="no label: lines 25 mm (1 in) apart or closer",
        ),
    )
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyCut:
    """Batting as it is sold in a package: its name, its sides in mm."""

    name: str
    width: float
    length: float


_INCH: Final = 25.4

READY_CUT: Final[tuple[ReadyCut, ...]] = tuple(
    ReadyCut(name=name, width=width * _INCH, length=length * _INCH)
    for name, width, length in (
        ("craft", 34, 45),
        ("crib", 45, 60),
        ("throw", 60, 60),
        ("twin", 72, 90),
        ("full", 81, 96),
        ("queen", 90, 108),
        ("king", 120, 120),
    )
)
"""From small to large; where charts differ (craft 34 or 36 in, full 81 or 84 in, king 120 or
124 in) the smaller is taken, so that what fits here fits in any. See docs/sources.md."""
