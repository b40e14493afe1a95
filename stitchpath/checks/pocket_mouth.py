"""Does the pocket stay open?

Measure: the thread of the stage that sews the pocket on, stitches and uncut moves, against the
pocket's room: what lies between mouth, side seams and foot, less the corner triangles. Anything
in it sews the pocket shut, there or further down.

Limits: half a millimetre beside seam and triangles is left to them.
"""

from collections.abc import Iterator

import shapely
from shapely.geometry.base import BaseGeometry

from stitchpath.checks._pieces import (
    AT_TRIANGLE_MM,
    across_finding,
    threads_across,
    triangles_of,
)
from stitchpath.model.finding import Finding
from stitchpath.model.plan import Plan, Stage
from stitchpath.units import number_of

CODE = "pocket-mouth"


def check(plan: Plan) -> Iterator[Finding]:
    """Point at thread that would sew the pocket shut."""
    pocket = plan.project.pocket
    for stage in plan.stages:
        if stage.name != "seam" or pocket is None or stage.piece.shadow is None:
            continue
        shut = threads_across(stage, _room(stage, pocket.seam.inset))
        if shut:
            yield across_finding(
                stage,
                shut,
                code=CODE,
                text=f"{number_of(len(shut), 'thread lies', 'threads lie')} across "
                "the pocket's room, where 0 may: that sews it shut",
                help="keep the seam to the pocket's sides and foot, and its triangles small",
            )


def _room(stage: Stage, inset: float) -> BaseGeometry:
    """Return what has to stay open, the way in through the mouth included."""
    left, top, right, bottom = shapely.Polygon(stage.piece.shadow).bounds
    side = inset + AT_TRIANGLE_MM
    inner = shapely.box(left + side, top, right - side, bottom - side)
    room: BaseGeometry = shapely.difference(inner, shapely.union_all(triangles_of((stage,))))
    return room
