"""Is one place sewn over too often?

Measure: how many times sewn lines lie on one another, over all runs, hoopings and stages of a
piece: joins of hoopings, lines sewn twice to save a cut, and drawings with doubled strokes add
up. Lines that cross do not count, nor do ties. More than three layers of thread over one place
break thread (see docs/sources.md); more than three or four passes only perforate the cloth
(common practice, no source).

Limits: `checks.passes`, 3, and `checks.passes_triangle`, 4, at a corner triangle. Lines a tenth
of a mm apart or more are taken for different ones. Less than about a stitch, 3 mm within a cell
of 10 mm, is left to the check of needle crowding. The deepest place of each piece is told.
"""

from collections import defaultdict
from collections.abc import Iterator
from typing import Final, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.checks._pieces import Stages, stages_by_piece, triangles_of
from stitchpath.geometry.overlaps import Overlap, find_overlaps
from stitchpath.geometry.paths import Paths
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan
from stitchpath.model.project import Project
from stitchpath.units import format_length

CODE = "thread-passes"
LEAST_MM: Final = 3.0
"""About a stitch."""
CELL_MM: Final = 10.0
_Over: TypeAlias = tuple[Overlap, int]
"""A stretch sewn over too often, and how often it may be."""


def check(plan: Plan) -> Iterator[Finding]:
    """Point at the place of each piece that is sewn over most often."""
    for _, stages in stages_by_piece(plan):
        yield from _on_piece(plan.project, stages)


def _on_piece(project: Project, stages: Stages) -> Iterator[Finding]:
    limits = (project.checks.passes, project.checks.passes_triangle)
    triangles = triangles_of(stages)
    over: list[_Over] = []
    for overlap in find_overlaps(_segments(stages), most=min(limits)):
        dense = any(shapely.contains_xy(area, *overlap.middle) for area in triangles)
        limit = limits[1] if dense else limits[0]
        if overlap.depth > limit:
            over.append((overlap, limit))
    over = _long(over)
    if not over:
        return
    worst, limit = over[0]
    length = sum(overlap.length for overlap, _ in over)
    yield Finding(
        code=CODE,
        level=Level.WARNING,
        text=f"a place on the {stages[0].piece.name} is sewn over {worst.depth} times; the "
        f"limit is {limit} (sewn too often in all: {format_length(length, project.units)})",
        help="sew fewer passes, take doubled lines out, or set route.travel to edge",
        stage=stages[-1].name,
        where=worst.middle,
        value=float(worst.depth),
        limit=float(limit),
    )


def _long(over: list[_Over]) -> list[_Over]:
    """Return what comes to more than a stitch's length within a cell; curves are many short."""
    cells = [(int(x // CELL_MM), int(y // CELL_MM)) for x, y in (one.middle for one, _ in over)]
    lengths: dict[tuple[int, int], float] = defaultdict(float)
    for (overlap, _), cell in zip(over, cells, strict=True):
        lengths[cell] += overlap.length
    return [one for one, cell in zip(over, cells, strict=True) if lengths[cell] >= LEAST_MM]


def _segments(stages: Stages) -> NDArray[np.float64]:
    hoopings = [sewn for stage in stages for sewn in stage.hoopings]
    lines = [line.points for sewn in hoopings for run in sewn.runs for line in run.lines]
    return Paths.of(lines).segments if lines else np.empty((0, 2, 2))
