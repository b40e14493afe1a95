"""Does the folded quilt go into its pocket?

Measure: the estimate `folding` says how the quilt is folded and how much room the pocket
leaves, and how that is found (docs/estimates.md). Limits: cloth gives and batting can be
pressed, so a small lack is told as how far the stack has to be pressed.
"""

from collections.abc import Iterator

from stitchpath.model.estimate import Folding
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan
from stitchpath.units import Unit, format_length

CODE = "fold-fit"
_THIRDS = 3


def check(plan: Plan) -> Iterator[Finding]:
    """Say how the quilt is folded, and how much room the pocket leaves or lacks."""
    fold, unit = plan.estimate.folding, plan.project.units
    if fold is None:
        return
    fits = fold.ease >= 0
    room = format_length(abs(fold.ease), unit)
    said = f"the pocket leaves {room}" if fits else f"the pocket is too small by {room}"
    pocket = _size(fold.smallest_pocket, unit)
    larger = f"make the pocket {pocket}, or the quilt smaller or thinner"
    yield Finding(
        code=CODE,
        level=Level.NOTE if fits else Level.WARNING,
        text=f"{_folded(fold, unit)}; {said}",
        help=_room_told(fold, unit) if fits else larger,
        stage="seam",
        value=fold.ease,
        limit=0.0,
    )


def _folded(fold: Folding, unit: Unit) -> str:
    across = "in thirds across" if fold.across == _THIRDS else "with both sides to the middle"
    along = f" and in {fold.along} along" if fold.along > 1 else ""
    size = _size((fold.width, fold.length), unit)
    height = format_length(fold.height, unit)
    return f"folded {across}{along}, the quilt is {size} and {height} high"


def _room_told(fold: Folding, unit: Unit) -> str:
    return (
        f"a pocket of {_size(fold.smallest_pocket, unit)} would do;"
        f" this one holds a quilt of up to {_size(fold.largest_quilt, unit)}"
    )


def _size(sides: tuple[float, float], unit: Unit) -> str:
    return " x ".join(format_length(side, unit) for side in sides)
