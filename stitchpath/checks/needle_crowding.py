"""Are needle points crowded?

Measure: needle points in a disc of 1 mm round each of them, itself included, over all runs,
hoopings and stages of a piece, on the grid of stitch files. Where the disc holds a point of a
tie, or lies at a corner triangle, more are allowed: those are meant to be dense. Below 1 mm
needle points share the cloth's fibres, thread breaks and holes tear open (see docs/sources.md).

Limits: `checks.needle_points`, 4, and `checks.needle_points_tied`, 8; common practice, no
source. Discs that are not centred on a needle point are not looked at. Of each piece the worst
three places are told, 10 mm or more apart.
"""

from collections.abc import Iterator
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.checks._pieces import (
    Stages,
    needle_points_of,
    stages_by_piece,
    triangles_of,
)
from stitchpath.geometry.crowding import Places, crowded_places, disc_counts, places_of
from stitchpath.geometry.points import Points
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan
from stitchpath.model.project import Project

CODE = "needle-crowding"
DISC_MM: Final = 1.0
MOST_TOLD: Final = 3
APART_MM: Final = 10.0


def check(plan: Plan) -> Iterator[Finding]:
    """Point at the places of each piece where most needle points share a small disc."""
    for _, stages in stages_by_piece(plan):
        yield from _on_piece(plan.project, stages)


def _on_piece(project: Project, stages: Stages) -> Iterator[Finding]:
    limits = (project.checks.needle_points, project.checks.needle_points_tied)
    found = crowded_places(needle_points_of(stages), disc_mm=DISC_MM, most=min(limits))
    limit = np.where(_is_dense_by_design(found, stages), limits[1], limits[0])
    over = found.counts - limit
    number = int(np.count_nonzero(over > 0))
    for place in _worst(over, found.xy):
        count, most = int(found.counts[place]), int(limit[place])
        x, y = found.xy[place].tolist()
        yield Finding(
            code=CODE,
            level=Level.WARNING,
            text=f"{count} needle points share a disc of 1 mm on the {stages[0].piece.name}; "
            f"at most {most} should (crowded in all: {number:,})",
            help="make the stitches longer, set the lines further apart, or sew fewer passes",
            stage=_stage_at((x, y), stages),
            where=(x, y),
            value=float(count),
            limit=float(most),
        )


def _is_dense_by_design(found: Places, stages: Stages) -> NDArray[np.bool_]:
    ties = places_of(needle_points_of(stages, ties=True))
    dense = disc_counts(found, ties, disc_mm=DISC_MM) > 0
    for triangle in triangles_of(stages):
        dense |= shapely.contains_xy(triangle, found.xy)
    return dense


def _worst(over: NDArray[np.intp], xy: Points) -> Iterator[int]:
    """Yield the few worst places, the worst first, that do not lie beside a worse one."""
    told: list[int] = []
    for place in np.argsort(-over, kind="stable").tolist():
        if over[place] <= 0 or len(told) == MOST_TOLD:
            return
        if all(np.hypot(*(xy[place] - xy[other])) >= APART_MM for other in told):
            told.append(place)
            yield place


def _stage_at(where: tuple[float, float], stages: Stages) -> str:
    """Return the last stage with a needle point in the disc: it makes the place crowded."""
    for stage in reversed(stages):
        away = np.hypot(*(needle_points_of((stage,)) - where).T)
        if (away <= DISC_MM).any():
            return stage.name
    return stages[-1].name
