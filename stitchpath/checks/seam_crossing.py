"""Does the pocket's seam clash with the quilting beneath?

Measure: the places where the seam crosses the quilt's quilting lines, and how far it runs
beside one within 3 mm without lying on it. The seam shows on the quilt's front (see
docs/sources.md): it looks meant where it lies on a quilting line or stays clear of all, and
missed where it runs beside one. It crosses more where the quilting goes on beneath the pocket.

Limits: beside means 20 mm or more within 3 mm (common practice, no source). Only looks are
meant; what is sewn through is for the checks of needle crowding and thread passes.
"""

from collections.abc import Iterator
from typing import Final

import shapely
from shapely.geometry.base import BaseGeometry

from stitchpath.geometry.points import Points
from stitchpath.model.finding import Finding, Level
from stitchpath.model.line import LineKind
from stitchpath.model.plan import Plan, Stage
from stitchpath.units import format_length, number_of

CODE = "seam-crossing"
BESIDE_MM: Final = 3.0
ON_MM: Final = 0.5
"""A seam so near to a line lies on it: sewing is no more exact."""
LONG_MM: Final = 20.0


def check(plan: Plan) -> Iterator[Finding]:
    """Count where the pocket's seam crosses quilting lines, and how far it runs beside one."""
    stages = {stage.name: stage for stage in plan.stages}
    if "quilt" not in stages or "seam" not in stages:
        return
    seam: BaseGeometry = shapely.union_all(
        [*map(shapely.LineString, _lines(stages["seam"], LineKind.SEAM))]
    )
    quilting = [*map(shapely.LineString, _lines(stages["quilt"], LineKind.QUILTING))]
    near = shapely.STRtree(quilting).query(seam, predicate="dwithin", distance=BESIDE_MM)
    lines = [quilting[index] for index in sorted(near.tolist())]
    crossings = shapely.get_parts(shapely.intersection(seam, shapely.union_all(lines)))
    points = [part for part in crossings if part.geom_type == "Point"]
    beside = _beside(seam, lines)
    if not points and not beside:
        return
    unit = plan.project.units
    length = format_length(sum(part.length for part in beside), unit)
    runs = f", and runs beside one for {length}" if beside else ""
    first = (beside or points)[0].centroid
    yield Finding(
        code=CODE,
        level=Level.NOTE,
        text=f"the pocket's seam crosses quilting lines of the quilt "
        f"{number_of(len(points), 'time', 'times')}{runs}",
        help="to keep it clear, give the quilting keep_out = [{ footprint = true }]; else lay "
        "the pocket's edge on a line",
        stage="seam",
        where=(first.x, first.y),
        value=float(len(points)),
        limit=0.0,
    )


def _beside(seam: BaseGeometry, lines: list[shapely.LineString]) -> list[shapely.LineString]:
    """Return the parts of lines that run beside the seam, not on it."""
    parts = shapely.get_parts(shapely.intersection(seam.buffer(BESIDE_MM), lines))
    return [
        part
        for part in parts
        if part.length >= LONG_MM
        and shapely.distance(seam, part.interpolate(0.5, normalized=True)) > ON_MM
    ]


def _lines(stage: Stage, kind: LineKind) -> list[Points]:
    return [line.points for line in stage.lines if line.kind is kind]
