"""How many bobbins to wind, where each would run out, and where to change them in time.

Formula. A bobbin holds what the catalog says, times 20 / tex; a tenth of it is never counted
on. Bobbins of one colour go on from stage to stage. A bobbin that would run out in a hooping is
changed before that hooping; where a full bobbin does not last for one hooping, it is changed
there, at the needle point told.

Source: how much is left unused is common practice (5 to 10 %), no source; lengths are those of
catalog/bobbins. Limits: winders differ, so the needle point is told to the hundred only.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, groupby

import numpy as np
from numpy.typing import NDArray

from stitchpath.catalog.bobbins import BOBBINS, TABLE_TEX
from stitchpath.model.estimate import BobbinChange, Bobbins
from stitchpath.model.plan import SewnHooping, Stage
from stitchpath.model.project import Project
from stitchpath.model.stitches import Op, Stitches

UNUSED_SHARE = 0.1
"""What is left on a bobbin changed in time. Common practice (5 to 10 %), no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A change of bobbin: in which hooping it would run out, after how much of its thread, mm.

    `within` tells that it cannot be changed before the hooping instead.
    """

    hooping: int
    at_mm: float
    within: bool


def count_bobbins(bobbin_thread_mm: float, bobbin: str, *, tex: float = TABLE_TEX) -> int:
    """Return the number of bobbins for one hooping or file.

    Example:
        >>> count_bobbins(36_000, "L"), count_bobbins(36_001, "L"), count_bobbins(0, "L")
        (1, 2, 0)
    """
    return bobbins_for([bobbin_thread_mm], bobbin, tex=tex)


def bobbins_for(needs_mm: Sequence[float], bobbin: str, *, tex: float = TABLE_TEX) -> int:
    """Return the number of bobbins for hoopings in their order, each changed in time."""
    changes, _ = find_changes(needs_mm, usable_mm(bobbin, tex=tex))
    return len(changes) + any(need > 0 for need in needs_mm)


def usable_mm(bobbin: str, *, tex: float = TABLE_TEX) -> float:
    """Return what can be counted on of one full bobbin of a thread."""
    return BOBBINS[bobbin].thread_mm * (1 - UNUSED_SHARE) * TABLE_TEX / tex


def find_changes(needs_mm: Sequence[float], full_mm: float) -> tuple[list[Change], float]:
    """Return the changes for hoopings in their order, and what is left on the last bobbin.

    Example:
        >>> changes, left = find_changes([20.0, 20.0, 5.0], 36.0)
        >>> [(change.hooping, change.at_mm) for change in changes], left
        ([(1, 16.0)], 11.0)
    """
    changes: list[Change] = []
    left = full_mm
    for hooping, need in enumerate(needs_mm):
        if left < need and left < full_mm:
            changes.append(Change(hooping=hooping, at_mm=left, within=False))
            left = full_mm
        sewn = 0.0
        while left < need - sewn:
            sewn += left
            changes.append(Change(hooping=hooping, at_mm=sewn, within=True))
            left = full_mm
        left -= need - sewn
    return changes, left


def wind_bobbins(stages: Sequence[Stage], project: Project) -> tuple[Bobbins, ...]:
    """Return the bobbins of each colour, in the order in which colours are first sewn."""
    full_mm = usable_mm(project.machine.bobbin, tex=project.supplies.thread_tex)
    colours = dict.fromkeys(stage.thread.bobbin for stage in stages)
    return tuple(_wind(colour, list(_hoopings(stages, colour)), full_mm) for colour in colours)


def _hoopings(stages: Sequence[Stage], colour: str) -> Iterator[tuple[Stage, SewnHooping]]:
    return (
        (stage, sewn)
        for stage in stages
        if stage.thread.bobbin == colour
        for sewn in stage.hoopings
    )


def _wind(colour: str, hoopings: list[tuple[Stage, SewnHooping]], full_mm: float) -> Bobbins:
    needs = [sewn.figures.bobbin_thread_mm for _, sewn in hoopings]
    changes, left_mm = find_changes(needs, full_mm)
    told = [
        _told(list(group), *hoopings[hooping])
        for hooping, group in groupby(changes, key=lambda change: change.hooping)
    ]
    return Bobbins(
        colour=colour,
        count=len(changes) + any(need > 0 for need in needs),
        changes=tuple(chain.from_iterable(told)),
        left_mm=left_mm,
        full_mm=full_mm,
    )


def _told(changes: list[Change], stage: Stage, sewn: SewnHooping) -> list[BobbinChange]:
    """Return the changes in one hooping; its stitches are gone through once for all of them."""
    at_mm = np.array([change.at_mm for change in changes])
    points = _needle_points(sewn.stitches, stage.thickness_mm, at_mm)
    return [
        BobbinChange(
            stage=stage.name,
            hooping=sewn.hooping.number,
            stitch=point,
            within=change.within,
        )
        for change, point in zip(changes, points, strict=True)
    ]


def _needle_points(
    stitches: Stitches, thickness_mm: float, at_mm: NDArray[np.float64]
) -> list[int]:
    """Return how many needle points are sewn when so much of a thread is used, for each."""
    lengths = stitches.sewn_lengths
    if not len(lengths):
        return [0] * len(at_mm)
    used = np.cumsum(lengths + thickness_mm)
    last = np.minimum(np.searchsorted(used, at_mm), len(used) - 1)
    rows = stitches.stitch_rows[last, 1]
    points: list[int] = np.cumsum(stitches.op == Op.STITCH)[rows].tolist()
    return points
