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

import numpy as np

from stitchpath.catalog.bobbins import BOBBINS, TABLE_TEX
from stitchpath.model.estimate import BobbinChange, Bobbins
from stitchpath.model.plan import SewnHooping, Stage
from stitchpath.model.project import Project
from stitchpath.model.stitches import Op

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
    return Bobbins(
        colour=colour,
        count=len(changes) + any(need > 0 for need in needs),
        changes=tuple(_told(change, *hoopings[change.hooping]) for change in changes),
        left_mm=left_mm,
        full_mm=full_mm,
    )


def _told(change: Change, stage: Stage, sewn: SewnHooping) -> BobbinChange:
    return BobbinChange(
        stage=stage.name,
        hooping=sewn.hooping.number,
        stitch=_needle_point(sewn, stage.thickness_mm, change.at_mm),
        within=change.within,
    )


def _needle_point(sewn: SewnHooping, thickness_mm: float, at_mm: float) -> int:
    """Return how many needle points are sewn when so much of a thread is used."""
    stitches = sewn.stitches
    rows = stitches.stitch_rows
    if not len(rows):
        return 0
    steps = stitches.xy[rows[:, 1]] - stitches.xy[rows[:, 0]]
    used = np.cumsum(np.hypot(steps[:, 0], steps[:, 1]) + thickness_mm)
    row = int(rows[min(int(np.searchsorted(used, at_mm)), len(rows) - 1), 1])
    return int(np.count_nonzero(stitches.op[: row + 1] == Op.STITCH))
