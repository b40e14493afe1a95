"""Plans whose needle points are given, for checks to look at."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import ArrayLike

from stitchpath.geometry.points import Points, frozen_points
from stitchpath.model.hooping import Hooping
from stitchpath.model.line import Line, LineKind
from stitchpath.model.piece import Piece, StageName
from stitchpath.model.plan import Figures, Plan, SewnHooping, Stage
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, Quilt
from stitchpath.model.route import RouteFigures
from stitchpath.model.stitches import Op, Run, Stitches
from stitchpath.model.thread import ThreadPair

SIDE = 200.0
"""Of the quilt, mm."""
POCKET = Pocket(width=100, length=80, raise_=20, mouth_stitch=0, quilting=())
"""Lies at 50 to 150 across and 100 to 180 down."""


def square(left: float, top: float, right: float, bottom: float) -> Points:
    """Return a rectangle's ring."""
    return frozen_points(
        [(left, top), (right, top), (right, bottom), (left, bottom), (left, top)]
    )


def rows_of(paths: Sequence[ArrayLike], *, tie: bool = False, cuts: bool = True) -> Stitches:
    """Return a jump to each path, a needle point at each of its places, and a cut behind it."""
    xy: list[Points] = []
    op: list[int] = []
    for path in (np.asarray(path, dtype=np.float64) for path in paths):
        xy += [path[:1], path] + [path[-1:]] * cuts
        op += [Op.JUMP, *[Op.STITCH] * len(path)] + [Op.CUT] * cuts
    return Stitches(xy=np.concatenate(xy), op=np.array(op), tie=np.full(len(op), tie))


def stage_of(
    stitches: Stitches | None = None,
    *,
    name: StageName = "quilt",
    lines: Sequence[Line] = (),
    runs: Sequence[Line] | None = None,
) -> Stage:
    """Return a stage of one hooping, or of none without stitches; its runs are its lines."""
    hooping = Hooping(number=1, field=(300.0, 300.0), centre=(SIDE / 2, SIDE / 2))
    sewn = stitches and SewnHooping(
        hooping=hooping,
        runs=(Run(lines=tuple(lines if runs is None else runs)),),
        route=RouteFigures(),
        stitches=stitches,
        figures=Figures(),
    )
    piece = Piece(
        name="pocket" if name == "pocket" else "quilt",
        width=SIDE,
        length=SIDE,
        outline=square(0, 0, SIDE, SIDE),
        shadow=square(50, 100, 150, 180) if name == "seam" else None,
    )
    return Stage(
        name=name,
        piece=piece,
        thread=ThreadPair(),
        thickness_mm=3.0,
        lines=tuple(lines),
        hoopings=(sewn,) if sewn else (),
        figures=Figures(),
        bobbins=1,
    )


def plan_of(*stages: Stage, project: Project | None = None) -> Plan:
    """Return a plan of stages; without a project, of a quilt with nothing else said."""
    given = project or Project(quilt=Quilt(width=SIDE, length=SIDE))
    return Plan(project=given, stages=stages, cutting=(), findings=())


def with_pocket(project: Project | None = None) -> Project:
    """Return a project with the pocket."""
    return replace(project or Project(quilt=Quilt(width=SIDE, length=SIDE)), pocket=POCKET)


def line(points: ArrayLike, kind: LineKind = LineKind.QUILTING, *, whole: bool = False) -> Line:
    """Return a line; one that is whole is a triangle."""
    xy = np.asarray(points, dtype=np.float64)
    return Line(points=xy, kind=kind, stitch_mm=2.5, whole=((0, len(xy) - 1),) if whole else ())
