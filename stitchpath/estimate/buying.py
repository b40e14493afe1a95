"""What to buy: a length of each cloth, and batting.

Method. The pieces of the cutting list are grouped by the cloth they are cut from, cut in panels
where that is not wide enough, and laid out; the length they take is rounded up to what shops
cut: an eighth of a yard (4 1/2 in) where the project is in inches, otherwise 10 cm. Batting is
the smallest ready-cut one that holds the quilt's and the pocket's piece.

Source: package sizes: docs/sources.md, cloth and cutting; the steps of shops are common
practice, no source. Limits: no cloth is added for a crooked cut end or for matching a print;
a pieced top is bought by its pattern, not by this.
"""

from collections.abc import Sequence
from math import ceil
from typing import Final

from stitchpath.catalog.battings import READY_CUT
from stitchpath.estimate.cloth_layout import fits, lay_out
from stitchpath.estimate.cutting import binding_cloth, cloth_width, source_of
from stitchpath.estimate.panels import cut_panels
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.estimate import BattingToBuy, Cloth, Rectangle
from stitchpath.model.plan import Cut
from stitchpath.model.project import Project
from stitchpath.units import Unit

_STEP_MM: Final[dict[Unit, float]] = {"in": 36 * 25.4 / 8, "cm": 100.0, "mm": 100.0}
_CLOTHS: Final = ("top", "backing", "pocket", "binding")
_PARTS: Final = {"quilt top": "top", "quilt backing": "backing", "pocket": "pocket"}


def buy_cloth(cuts: Sequence[Cut], project: Project) -> tuple[Cloth, ...]:
    """Return the cloths to buy, each with how its pieces lie."""
    groups: dict[str, list[Cut]] = {name: [] for name in _CLOTHS}
    for cut in cuts:
        if cut.what in _PARTS:
            groups[source_of(project, _PARTS[cut.what])].append(cut)
        elif cut.what == "binding strip":
            groups[binding_cloth(project)].append(cut)
    return tuple(_cloth(name, group, project) for name, group in groups.items() if group)


def buy_batting(cuts: Sequence[Cut]) -> BattingToBuy:
    """Return the smallest ready-cut batting that holds the battings of a cutting list."""
    pieces = [
        Rectangle(what=cut.what, width=cut.width, length=cut.length)
        for cut in cuts
        if cut.what.endswith("batting")
    ]
    if not pieces:
        return BattingToBuy()
    for ready in READY_CUT:
        for width, length in ((ready.width, ready.length), (ready.length, ready.width)):
            if not all(fits(piece, width) for piece in pieces):
                continue
            laid = lay_out(pieces, width)
            if laid.length <= length + SAME_POINT_MM:
                return BattingToBuy(
                    name=ready.name, width=width, length=length, pieces=laid.pieces
                )
    return BattingToBuy()


def shop_length(length_mm: float, unit: Unit) -> float:
    """Return a length of cloth rounded up to what shops cut, mm.

    Example:
        >>> shop_length(1501, "cm"), shop_length(1501, "in") / 914.4
        (1600.0, 1.75)
    """
    step = _STEP_MM[unit]
    return step * ceil((length_mm - SAME_POINT_MM) / step)


def _cloth(name: str, cuts: Sequence[Cut], project: Project) -> Cloth:
    width = cloth_width(project, name)
    pieces = [
        panel
        for cut in cuts
        for _ in range(cut.count)
        for panel in cut_panels(
            _rectangle(cut, project), width, allowance=_allowance(project, width)
        )
    ]
    laid = lay_out(pieces, width)
    return Cloth(
        name=name,
        usable_width=width,
        length=laid.length,
        buy=shop_length(laid.length, project.units),
        pieces=laid.pieces,
    )


def _rectangle(cut: Cut, project: Project) -> Rectangle:
    is_strip = cut.what == "binding strip"
    return Rectangle(
        what=cut.what,
        width=cut.width,
        length=cut.length,
        may_turn=is_strip or not project.fabric.directional,
    )


def _allowance(project: Project, width: float) -> float:
    """Return the allowance between panels: the quilt's own, if the cloth leaves room for it."""
    return min(project.quilt.seam_allowance, width / 4)
