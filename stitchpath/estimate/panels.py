"""A piece wider than its cloth, cut in panels that are sewn together.

Formula. A seam takes the allowance from both panels it joins. Panels run along the cloth, or
across where the print may be turned; whichever takes less cloth. All are as wide as the cloth
but the last, which gets what is left; where that would be narrower than `NARROWEST_MM`, the
panels are made equal.

Source: common practice, no source. Limits: a seam lies where the panels end, not where a
pattern would hide it.
"""

from math import ceil
from typing import Final

from stitchpath.estimate.cloth_layout import fits
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.estimate import Rectangle

NARROWEST_MM: Final = 100.0
"""A narrower strip at one edge looks like a mistake. Common practice, no source."""


def cut_panels(piece: Rectangle, width: float, *, allowance: float) -> tuple[Rectangle, ...]:
    """Return the parts that a piece is cut in; the piece itself where the cloth is wide enough.

    Args:
        piece: What is wanted in one piece.
        width: Of the cloth, mm; more than two allowances.
        allowance: Of the seams between panels, mm.

    Example:
        >>> wide = Rectangle(what="backing", width=1500, length=1800, may_turn=False)
        >>> [(panel.width, panel.length) for panel in cut_panels(wide, 1000, allowance=10)]
        [(1000, 1800), (520, 1800)]
    """
    if fits(piece, width):
        return (piece,)
    along = _panels(piece, piece.width, piece.length, width, allowance)
    if not piece.may_turn:
        return along
    across = _panels(piece, piece.length, piece.width, width, allowance)
    return min(along, across, key=lambda panels: sum(panel.length for panel in panels))


def _panels(
    piece: Rectangle, wide: float, long: float, width: float, allowance: float
) -> tuple[Rectangle, ...]:
    gained = width - 2 * allowance
    count = ceil((wide - 2 * allowance - SAME_POINT_MM) / gained)
    whole = wide + 2 * allowance * (count - 1)
    last = whole - width * (count - 1)
    widths = [width] * (count - 1) + [last] if last >= NARROWEST_MM else [whole / count] * count
    return tuple(
        Rectangle(
            what=f"{piece.what}, panel {number} of {count}",
            width=each,
            length=long,
            may_turn=piece.may_turn,
        )
        for number, each in enumerate(widths, 1)
    )
