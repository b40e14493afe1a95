"""How the quilt folds into its pocket, and how small the pocket or large the quilt may be.

Method. Both sides are folded in over the middle third, or to meet in the middle; then the quilt
is folded along in equal parts, as few or many as leave the most room. The stack is as high as
its layers, and is taken for a block. A pocket lies flat: round a block of width w and height h
its two faces have to go all the way, so w + h must not be more than its width inside the seam;
half the height is lost from its depth at the foot. The mouth stays open, so nothing is lost
there. The smallest pocket of its shape is that of the fold for which it has to grow least,
rounded up to what makers cut; the largest quilt of its shape is found likewise.

Source: thirds across, then along, and how it is done: docs/sources.md, the throw that folds
into its pocket; the block: geometry.

Limits: cloth gives and batting can be pressed, so a little lack can be lived with. The part of
the quilt behind the pocket is counted as a layer, which is on the safe side; cloth that is used
up in going round the folds is not counted.
"""

from collections.abc import Iterator
from math import ceil, floor
from typing import Final

from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.estimate import Folding
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket
from stitchpath.units import Unit, format_length

MOST_ALONG: Final = 12
"""More folds along make a stack that no pocket holds."""
_ACROSS: Final = (3, 2)
_STEP_MM: Final[dict[Unit, float]] = {"mm": 5.0, "cm": 5.0, "in": 6.35}
"""Makers cut to a round figure: 5 mm, 1/4 in."""


def fold_quilt(project: Project, pocket: Pocket) -> Folding:
    """Return the fold that leaves the most room, with its steps.

    Example:
        >>> from stitchpath.model.project import Batting
        >>> from stitchpath.model.quilt import Quilt
        >>> throw = Project(quilt=Quilt(width=900, length=1200), batting=Batting(thickness=2))
        >>> fold = fold_quilt(throw, Pocket(width=350, length=350))
        >>> fold.across, fold.along, fold.width, fold.height, round(fold.ease, 3)
        (3, 4, 300.0, 24.0, 16.475)
        >>> fold.smallest_pocket, fold.largest_quilt
        ((335.0, 335.0), (945.0, 1265.0))
    """
    best = max(_folds(project, pocket), key=lambda fold: fold.ease)
    return Folding(
        across=best.across,
        along=best.along,
        width=best.width,
        length=best.length,
        height=best.height,
        ease=best.ease,
        smallest_pocket=_smallest_pocket(project, pocket),
        largest_quilt=_largest_quilt(project, pocket),
        steps=_steps(best, project),
    )


def _folds(project: Project, pocket: Pocket) -> Iterator[Folding]:
    quilt, inset = project.quilt, pocket.seam.inset
    for across in _ACROSS:
        for along in range(1, MOST_ALONG + 1):
            height = across * along * project.batting.thickness
            width, length = quilt.width / across, quilt.length / along
            ease = min(
                pocket.width - 2 * inset - (width + height),
                pocket.length - inset - (length + height / 2),
            )
            yield Folding(
                across=across, along=along, width=width, length=length, height=height, ease=ease
            )


def _smallest_pocket(project: Project, pocket: Pocket) -> tuple[float, float]:
    inset = pocket.seam.inset
    grown = min(
        max(
            (fold.width + fold.height + 2 * inset) / pocket.width,
            (fold.length + fold.height / 2 + inset) / pocket.length,
        )
        for fold in _folds(project, pocket)
    )
    step = _STEP_MM[project.units]
    width, length = (
        step * ceil((grown * side - SAME_POINT_MM) / step)
        for side in (pocket.width, pocket.length)
    )
    return width, length


def _largest_quilt(project: Project, pocket: Pocket) -> tuple[float, float]:
    quilt, inset = project.quilt, pocket.seam.inset
    grown = max(
        min(
            (pocket.width - 2 * inset - fold.height) / fold.width,
            (pocket.length - inset - fold.height / 2) / fold.length,
        )
        for fold in _folds(project, pocket)
    )
    step = _STEP_MM[project.units]
    width, length = (
        step * floor((max(0.0, grown) * side + SAME_POINT_MM) / step)
        for side in (quilt.width, quilt.length)
    )
    return width, length


def _steps(fold: Folding, project: Project) -> tuple[str, ...]:
    unit = project.units
    width, length = format_length(fold.width, unit), format_length(fold.length, unit)
    thirds = (
        f"fold the left third over the middle, {width} wide",
        "fold the right third over it",
    )
    halves = (
        f"fold the left side in to the middle, {format_length(fold.width / 2, unit)} of it",
        "fold the right side in to meet it",
    )
    along = (
        f"from the far end fold towards the pocket, {length} at a time,"
        f" until all {fold.along} parts lie on each other"
    )
    height = format_length(fold.height, unit)
    return (
        "lay the quilt face down: the pocket is underneath, at the end nearest to you",
        *(thirds if fold.across == _ACROSS[0] else halves),
        *((along,) if fold.along > 1 else ()),
        "reach into the pocket, hold its far corners and turn it inside out over the stack",
        f"push the corners out; the stack is about {height} thick before it is pressed",
    )
