"""What several checks ask of a plan: the stages of a piece, and where its triangles are."""

from collections.abc import Iterator
from typing import Final, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.finding import Finding, Level
from stitchpath.model.line import LineKind
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.model.stitches import Op

Stages: TypeAlias = tuple[Stage, ...]

AT_TRIANGLE_MM: Final = 0.5
"""What is so near to a triangle belongs to it: half a disc of 1 mm."""


def stages_by_piece(plan: Plan) -> Iterator[tuple[str, Stages]]:
    """Yield each piece's name with all stages that sew on it, in the order of sewing."""
    for name in dict.fromkeys(stage.piece.name for stage in plan.stages):
        yield name, tuple(stage for stage in plan.stages if stage.piece.name == name)


def needle_points_of(stages: Stages, *, ties: bool = False) -> Points:
    """Return where the needle goes down, shape (n, 2), mm; of ties alone where so asked."""
    sewn = [one.stitches for stage in stages for one in stage.hoopings]
    wanted = [one.tie & (one.op == Op.STITCH) if ties else one.op == Op.STITCH for one in sewn]
    ends = np.cumsum([0, *map(np.count_nonzero, wanted)])
    points = np.empty((ends[-1], 2))
    for one, rows, first, last in zip(sewn, wanted, ends[:-1], ends[1:], strict=True):
        np.compress(rows, one.xy, axis=0, out=points[first:last])
    return points


def thread_moves(sewn: SewnHooping) -> NDArray[np.float64]:
    """Return where thread lies after sewing, from place to place, shape (k, 2, 2), mm.

    Stitches, and moves with the thread uncut. A move after a cut leaves none; nor does one to
    the start of a run, where the maker snips what the machine does not cut.
    """
    op, xy = sewn.stitches.op, sewn.stitches.xy
    rows = np.flatnonzero((op == Op.STITCH) | (op == Op.JUMP))
    cuts = np.cumsum(op == Op.CUT)[rows]
    whole = cuts[1:] == cuts[:-1]
    jumps = np.flatnonzero(op[rows[1:]] == Op.JUMP)
    whole[jumps] &= ~_starts_run(sewn, xy[rows[1:][jumps]])
    moves = np.stack([xy[rows[:-1][whole]], xy[rows[1:][whole]]], axis=1)
    return np.asarray(moves[(moves[:, 0] != moves[:, 1]).any(axis=1)])


def _starts_run(sewn: SewnHooping, places: Points) -> NDArray[np.bool_]:
    """Return which places are starts of runs."""
    starts = [run.lines[0].points[0] for run in sewn.runs if run.lines]
    away = shapely.distance(shapely.points(places), shapely.MultiPoint(starts))
    return np.asarray(away <= SAME_POINT_MM)


def threads_across(stage: Stage, area: BaseGeometry) -> list[shapely.LineString]:
    """Return the stitches and uncut moves of a stage that meet an area, in sewing order."""
    moves = np.concatenate([np.empty((0, 2, 2)), *map(thread_moves, stage.hoopings)])
    left, top, right, bottom = area.bounds  # not a number where it is empty: none is near
    near = (moves.max(axis=1) >= (left, top)) & (moves.min(axis=1) <= (right, bottom))
    threads = [shapely.LineString(move) for move in moves[near.all(axis=1)]]
    shapely.prepare(area)
    return [thread for thread in threads if area.intersects(thread)]


def across_finding(
    stage: Stage,
    threads: list[shapely.LineString],
    *,
    code: str,
    text: str,
    help: str,  # noqa: A002 - as a finding calls it
) -> Finding:
    """Return the error of threads, one or more, that lie where none may."""
    middle = threads[0].interpolate(0.5, normalized=True)
    return Finding(
        code=code,
        level=Level.ERROR,
        text=text,
        help=help,
        stage=stage.name,
        where=(middle.x, middle.y),
        value=float(len(threads)),
        limit=0.0,
    )


def triangles_of(stages: Stages) -> list[BaseGeometry]:
    """Return the corner triangles that stages sew, each a little enlarged."""
    return [
        shapely.MultiPoint(line.points[first : last + 1]).convex_hull.buffer(AT_TRIANGLE_MM)
        for stage in stages
        for line in stage.lines
        if line.kind is LineKind.SEAM
        for first, last in line.whole
    ]
