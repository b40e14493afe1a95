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
