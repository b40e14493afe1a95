"""What a plan really sews, for tests: paths of needle points, and how they lie to lines."""

from collections.abc import Iterator

import numpy as np
import shapely

from stitchpath.geometry.points import Points
from stitchpath.model.plan import SewnHooping, Stage
from stitchpath.model.stitches import Op, Stitches


def sewn_paths(stitches: Stitches) -> list[Points]:
    """Return needle points sewn one after another without a jump between them."""
    rows = np.flatnonzero((stitches.op == Op.STITCH) | (stitches.op == Op.JUMP))
    jumps = np.flatnonzero(stitches.op[rows] == Op.JUMP)
    parts = np.split(rows, jumps)
    paths = [stitches.xy[part[stitches.op[part] == Op.STITCH]] for part in parts]
    return [path for path in paths if len(path)]


def stage_paths(stage: Stage) -> list[Points]:
    """Return everything a stage sews, hooping by hooping."""
    return [path for sewn in stage.hoopings for path in sewn_paths(sewn.stitches)]


def designed(stage: Stage) -> shapely.Geometry:
    """Return a stage's designed lines as one shape."""
    return shapely.union_all([shapely.LineString(line.points) for line in stage.lines])


def uncovered_mm(lines: shapely.Geometry, paths: list[Points], *, reach_mm: float) -> float:
    """Return how much of some lines is farther than `reach_mm` from everything sewn."""
    threads = shapely.buffer([shapely.LineString(path) for path in paths], reach_mm)
    return float(shapely.length(shapely.difference(lines, shapely.union_all(threads))))


def farthest_mm(lines: shapely.Geometry, paths: list[Points]) -> float:
    """Return how far needle points, and the middles of stitches, lie from lines at the most."""
    places = np.concatenate([(path[1:] + path[:-1]) / 2 for path in paths] + paths)
    shapely.prepare(lines)
    return float(shapely.distance(lines, shapely.points(places)).max())


def in_file(sewn: SewnHooping, step_mm: float = 0.1) -> Points:
    """Return where a stitch file puts every row: in the field, on a grid of 0.1 mm."""
    return np.round(sewn.hooping.to_field(sewn.stitches.xy) / step_mm) * step_mm


def all_hoopings(stages: tuple[Stage, ...]) -> Iterator[SewnHooping]:
    """Yield every hooping of some stages."""
    for stage in stages:
        yield from stage.hoopings
