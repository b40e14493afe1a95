"""Does the folded quilt go into its pocket?

Fold: in thirds across, then in equal parts along, as few as go into the pocket's depth; that is
how such throws are folded (common practice, no source). Measure: the folded quilt is taken for
a block of the stack's height. A pocket lies flat; round a block of width w and height h its two
faces have to go all the way, so w + h must not be more than its width inside the seam, and half
the height is lost from its depth at the foot.

Limits: cloth gives and batting can be pressed, so a small lack is told as how far the stack has
to be pressed. The mouth stays open, so nothing is lost there.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan
from stitchpath.model.project import Pocket, Project
from stitchpath.units import format_length

CODE = "fold-fit"
ACROSS = 3
"""Folds across: thirds."""
MOST_ALONG = 12
"""More folds along make a stack that no pocket holds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fold:
    """A folded quilt: parts along, its size and height, and what the pocket leaves, mm.

    `ease` is what is left of width or depth, whichever is less; negative where it lacks.
    """

    along: int
    width: float
    length: float
    height: float
    ease: float


def check(plan: Plan) -> Iterator[Finding]:
    """Say how the quilt is folded, and how much room the pocket leaves or lacks."""
    pocket = plan.project.pocket
    if pocket is None:
        return
    fold = best_fold(plan.project, pocket)
    unit = plan.project.units
    text = (
        f"folded in thirds across and in {fold.along} along, the quilt is "
        f"{format_length(fold.width, unit)} x {format_length(fold.length, unit)} and "
        f"{format_length(fold.height, unit)} high"
    )
    room = format_length(abs(fold.ease), unit)
    if fold.ease >= 0:
        yield Finding(
            code=CODE,
            level=Level.NOTE,
            text=f"{text}; the pocket leaves {room}",
            stage="seam",
            value=fold.ease,
            limit=0.0,
        )
        return
    yield Finding(
        code=CODE,
        level=Level.WARNING,
        text=f"{text}; the pocket is too small by {room}",
        help=f"make the pocket {_wider(plan.project, pocket)}, or the quilt smaller or thinner",
        stage="seam",
        value=fold.ease,
        limit=0.0,
    )


def best_fold(project: Project, pocket: Pocket) -> Fold:
    """Return the fold along that leaves the most room.

    Example:
        >>> from stitchpath.model.project import Batting, Quilt
        >>> throw = Project(quilt=Quilt(width=900, length=1200), batting=Batting(thickness=2))
        >>> fold = best_fold(throw, Pocket(width=350, length=350))
        >>> fold.along, fold.width, fold.height, round(fold.ease, 3)
        (4, 300.0, 24.0, 16.475)
    """
    return max(
        (_fold(project, pocket, along) for along in range(1, MOST_ALONG + 1)),
        key=lambda fold: fold.ease,
    )


def _fold(project: Project, pocket: Pocket, along: int) -> Fold:
    quilt, inset = project.quilt, pocket.seam.inset
    height = ACROSS * along * project.batting.thickness
    width, length = quilt.width / ACROSS, quilt.length / along
    ease = min(
        pocket.width - 2 * inset - (width + height),
        pocket.length - inset - (length + height / 2),
    )
    return Fold(along=along, width=width, length=length, height=height, ease=ease)


def _wider(project: Project, pocket: Pocket) -> str:
    """Return the size of a pocket that would do, each side enlarged by the same."""
    lack = -best_fold(project, pocket).ease
    step = 5.0  # mm; makers cut to a round figure
    sides = (step * ceil((side + lack) / step) for side in (pocket.width, pocket.length))
    return " x ".join(format_length(side, project.units) for side in sides)
