"""Is one place sewn over too often?

Measure: how many times sewn lines lie on one another, over all runs, hoopings and stages of a
piece: joins of hoopings, lines sewn twice to save a cut, and drawings with doubled strokes add
up. Lines that cross do not count, nor do ties. More than three layers of thread over one place
break thread (see docs/sources.md); more than three or four passes only perforate the cloth
(common practice, no source).

Limits: `checks.passes`, 3, and `checks.passes_triangle`, 4, at a corner triangle. Lines a tenth
of a mm apart or more are taken for different ones. The deepest place of each piece is told.
"""

from collections.abc import Iterator

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.checks._pieces import Stages, stages_by_piece, triangles_of
from stitchpath.geometry.overlaps import Overlap, find_overlaps
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan, Stage
from stitchpath.model.project import Project
from stitchpath.units import format_length

CODE = "thread-passes"


def check(plan: Plan) -> Iterator[Finding]:
    """Point at the place of each piece that is sewn over most often."""
    for _, stages in stages_by_piece(plan):
        yield from _on_piece(plan.project, stages)


def _on_piece(project: Project, stages: Stages) -> Iterator[Finding]:
    limits = (project.checks.passes, project.checks.passes_triangle)
    triangles = triangles_of(stages)
    over: list[tuple[Overlap, int]] = []
    for overlap in find_overlaps(_segments(stages), most=min(limits)):
        dense = any(shapely.contains_xy(area, *overlap.middle) for area in triangles)
        limit = limits[1] if dense else limits[0]
        if overlap.depth > limit:
            over.append((overlap, limit))
    if not over:
        return
    worst, limit = over[0]
    length = sum(overlap.length for overlap, _ in over)
    yield Finding(
        code=CODE,
        level=Level.WARNING,
        text=f"a place on the {stages[0].piece.name} is sewn over {worst.depth} times; at most "
        f"{limit} should be (sewn too often in all: {format_length(length, project.units)})",
        help="sew fewer passes, take doubled lines out, or set route.travel to edge",
        stage=stages[-1].name,
        where=worst.middle,
        value=float(worst.depth),
        limit=float(limit),
    )


def _segments(stages: Stages) -> NDArray[np.float64]:
    parts = [np.empty((0, 2, 2))]
    for stage in stages:
        parts += [np.stack([points[:-1], points[1:]], axis=1) for points in _sewn(stage)]
    return np.concatenate(parts)


def _sewn(stage: Stage) -> list[NDArray[np.float64]]:
    runs = [run for sewn in stage.hoopings for run in sewn.runs]
    return [line.points for run in runs for line in run.lines]
