"""Refit: a hooping's stitches moved to where its marks really are.

motion      what brings the planned places of marks in the field to where they were found
residual    how far a mark is from its moved place
stretch     by how much the found marks lie further apart than planned, as a share
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from math import degrees, hypot
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.motion import Motion, best_motion
from stitchpath.geometry.points import Points, on_grid
from stitchpath.geometry.tolerance import MEETING_MM
from stitchpath.model.hooping import Hooping, Mark
from stitchpath.model.plan import SewnHooping, Stage
from stitchpath.model.refit import Refit
from stitchpath.model.stitches import Stitches

MOST_STRETCH: Final = 0.01
"""Where the cloth is stretched by more, stitches that are only moved miss by 2 mm and more at
the far ends of a field of 400 mm: plainly visible (common practice, no source)."""
MOST_ALLOWED_STRETCH: Final = 0.05
"""More is no stretched cloth but a mark taken for another. Common practice, no source."""
MOST_RESIDUAL_MM: Final = 2.0
"""A mark that is further off is a wrong one, or the cloth is pulled out of shape."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """How a hooping's marks were found, and where that puts it.

    Attributes:
        motion: In the field, from planned to found.
        hooping: The hooping as it really lies; its marks are where they were found.
        stretch: Of the best similarity, whether it is used or not; 0.01 is one percent.
        residuals: How far each mark is from its moved place, mm, by name.
    """

    motion: Motion
    hooping: Hooping
    stretch: float
    residuals: Mapping[str, float]

    @property
    def residual_mm(self) -> float:
        """The root mean square of the marks' distances from their moved places."""
        return float(np.sqrt(np.mean(np.square(list(self.residuals.values())))))


def fit_hooping(
    hooping: Hooping, found: Mapping[str, tuple[float, float]], *, may_stretch: bool
) -> Fit:
    """Return how a hooping really lies, by least squares over its marks.

    Args:
        hooping: As planned, with its marks.
        found: Where in the field marks are, mm, by name; two or more of the hooping's, apart.
        may_stretch: Stretch the stitches as the marks are.

    Raises:
        KeyError: The hooping has no such mark (a caller's bug).
    """
    planned = {mark.name: mark for mark in hooping.marks}
    before = np.array([planned[name].field for name in found])
    after = np.array(list(found.values()))
    motion = best_motion(before, after, may_stretch=may_stretch)
    similar = best_motion(before, after, may_stretch=True)
    missed = np.hypot(*(motion.moved(before) - after).T).tolist()
    return Fit(
        motion=motion,
        hooping=_as_it_lies(hooping, motion, found),
        stretch=similar.scale - 1.0,
        residuals=dict(zip(found, missed, strict=True)),
    )


def stretched(stitches: Stitches, hooping: Hooping, scale: float) -> Stitches:
    """Return stitches stretched about the field's planned centre; 1 changes nothing."""
    if scale == 1.0:
        return stitches
    centre = np.array(hooping.centre)
    return replace(stitches, xy=centre + scale * (stitches.xy - centre))


def past_field(stitches: Stitches, hooping: Hooping) -> NDArray[np.float64]:
    """Return how far stitches go past the field's left, top, right and bottom edge, mm.

    Places are rounded as in files; what is inside has zero or less. Shape (4,).
    """
    places = on_grid(hooping.to_field(stitches.xy))
    half = np.array(hooping.field) / 2
    return np.concatenate([-half - places.min(axis=0), places.max(axis=0) - half])


def make_refit(stage: str, planned: Hooping, fit: Fit, *, file: str) -> Refit:
    """Return what is kept of a refit, for the hoopings that share marks with it."""
    seen = np.array([mark.field for mark in fit.hooping.marks])
    among = planned.to_piece(fit.motion.undone(seen)).tolist()
    return Refit(
        stage=stage,
        number=planned.number,
        planned_centre=planned.centre,
        planned_turn_deg=planned.turn_deg,
        field=planned.field,
        centre=fit.hooping.centre,
        turn_deg=fit.hooping.turn_deg,
        scale=fit.motion.scale,
        marks=tuple(
            replace(mark, piece=(x, y))
            for mark, (x, y) in zip(fit.hooping.marks, among, strict=True)
        ),
        file=file,
    )


def is_of(refit: Refit, stage: Stage) -> bool:
    """Whether a refit is of a hooping as the stage has it now."""
    hooping = next(
        (sewn.hooping for sewn in stage.hoopings if sewn.hooping.number == refit.number), None
    )
    if refit.stage != stage.name or hooping is None:
        return False
    return (
        _same(hooping.centre, refit.planned_centre)
        and _same(hooping.field, refit.field)
        and abs(hooping.turn_deg - refit.planned_turn_deg) <= MEETING_MM
    )


def with_refits(stage: Stage, refits: Iterable[Refit]) -> Stage:
    """Return a stage that knows what of it was refitted.

    A refitted hooping's stitches stay as planned in the plan; what was sewn is in its refit.
    The other hoopings look for the marks that they share with it where its stitches say, so
    that they join what was sewn: a mark's `field` moves, its `piece` stays where the cross is.

    Args:
        stage: As planned.
        refits: Of any stage; those that are not of this one as it is now are left out.
    """
    own = {refit.number: refit for refit in refits if is_of(refit, stage)}
    places: dict[str, list[tuple[float, float]]] = {}
    for refit in own.values():
        for mark in refit.marks:
            places.setdefault(mark.name, []).append(mark.piece)
    moved = {name: np.mean(seen, axis=0) for name, seen in places.items()}
    hoopings = tuple(
        replace(sewn, refit=own[sewn.hooping.number])
        if sewn.hooping.number in own
        else replace(sewn, hooping=_with_moved_marks(sewn, moved))
        for sewn in stage.hoopings
    )
    return replace(stage, hoopings=hoopings)


def _as_it_lies(
    hooping: Hooping, motion: Motion, found: Mapping[str, tuple[float, float]]
) -> Hooping:
    """Return the hooping from whose field the moved stitches are sewn where they belong.

    Stretching is about the field's centre, so it leaves centre and turn alone.
    """
    rigid = replace(motion, scale=1.0)
    x, y = hooping.to_piece(rigid.undone(np.zeros((1, 2))))[0].tolist()
    bare = replace(
        hooping, centre=(x, y), turn_deg=hooping.turn_deg - degrees(motion.angle_rad)
    )
    drawn = {mark.name: mark.piece for mark in hooping.marks}
    marks = (Mark(name=name, piece=drawn[name], field=at) for name, at in found.items())
    return replace(bare, marks=tuple(marks))


def _with_moved_marks(sewn: SewnHooping, moved: Mapping[str, Points]) -> Hooping:
    hooping = sewn.hooping
    marks = []
    for mark in hooping.marks:
        if mark.name in moved:
            x, y = hooping.to_field(moved[mark.name][None, :])[0].tolist()
            marks.append(replace(mark, field=(x, y)))
        else:
            marks.append(mark)
    return replace(hooping, marks=tuple(marks))


def _same(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return hypot(one[0] - other[0], one[1] - other[1]) <= MEETING_MM
