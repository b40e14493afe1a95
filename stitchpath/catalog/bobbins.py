"""Bobbin shapes and how much thread a maker's own winding holds.

Sizes of the three shapes: published dimension tables of sewing-bobbin sellers. Lengths: common
practice for home-wound 50 wt cotton, no source; the lower end is taken, since running out in
the middle of a line is worse than changing early. Of a thicker or finer thread a bobbin holds
less or more: its wound volume is the same, so length goes with 1 / tex.
"""

from dataclasses import dataclass
from typing import Final

TABLE_TEX: Final = 20.0
"""Of the thread that the table is for: 50 wt, 1000 / 50 g to 1000 m."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bobbin:
    """One bobbin shape.

    Attributes:
        name: The letter the trade calls it by.
        diameter_mm: Across.
        height_mm: Along the axle.
        thread_mm: What a home-wound one holds.
        summary: One line for a listing.
    """

    name: str
    diameter_mm: float
    height_mm: float
    thread_mm: float
    summary: str


BOBBINS: Final[dict[str, Bobbin]] = {
    bobbin.name: bobbin
    for bobbin in (
        Bobbin(
            name="A",
            diameter_mm=20.3,
            height_mm=11.7,
            thread_mm=55_000,
            summary="class 15, home machines; about 55 m of 50 wt wound at home",
        ),
        Bobbin(
            name="L",
            diameter_mm=20.3,
            height_mm=8.9,
            thread_mm=40_000,
            summary="flat; about 40 m of 50 wt wound at home",
        ),
        Bobbin(
            name="M",
            diameter_mm=24.9,
            height_mm=10.7,
            thread_mm=90_000,
            summary="large; about 90 m of 50 wt wound at home",
        ),
    )
}
