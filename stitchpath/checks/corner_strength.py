"""Will the pocket's corners hold?

Measure: the rule of thumb for lockstitch seams, strength = stitches x thread strength x 1.5, in
which the weaker of the two threads governs; 10 stitches to the inch of a 4 lb thread hold 60 lb
on each inch (see docs/sources.md). It is applied to all stitches of a corner triangle, and to
10 cm of the seam. The load is the maker's: two corners share it, and since a load that is let
go all at once pulls twice as hard as one at rest (elementary mechanics: the energy), each
corner has to hold all of it. A kilogram weighs 9.80665 N.

Limits: an estimate, no promise. Stitches do not share a load evenly, worn thread is weaker, and
strong stitching tears the cloth instead. Where no `pocket.seam.thread_strength` is given, a
thread of the project's `supplies.thread_tex` and the seam's `fibre` is assumed.
"""

from collections.abc import Iterator
from typing import Final

import numpy as np
import shapely

from stitchpath.catalog.strengths import thread_strength
from stitchpath.checks._pieces import triangles_of
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan, Stage
from stitchpath.model.quilt import PocketSeam

CODE = "corner-strength"
LOCKSTITCH: Final = 1.5
"""Two loops cross in each stitch, each a little weaker than two threads."""
N_PER_KG: Final = 9.80665
SEAM_MM: Final = 100.0


def check(plan: Plan) -> Iterator[Finding]:
    """Estimate what the weaker corner triangle and 10 cm of seam hold, against the load."""
    pocket = plan.project.pocket
    for stage in plan.stages:
        if stage.name == "seam" and pocket is not None and stage.hoopings:
            yield _estimate(stage, pocket.seam, tex=plan.project.supplies.thread_tex)


def seam_strength(stitches: float, strength: float) -> float:
    """Return what so many lockstitches hold, in the unit of the weaker thread's strength.

    Example:
        >>> seam_strength(10, 4.0)  # an inch of 10 stitches, a thread of 4 lb: 60 lb
        60.0
    """
    return stitches * strength * LOCKSTITCH


def _estimate(stage: Stage, seam: PocketSeam, *, tex: float) -> Finding:
    thread = seam.thread_strength or thread_strength(tex, seam.fibre)
    count, where = _weaker_triangle(stage)
    holds = seam_strength(count, thread)
    along = seam_strength(SEAM_MM / seam.stitch_length, thread)
    load = None if seam.load is None else seam.load * N_PER_KG
    given = "" if seam.thread_strength else f" (assumed, for {seam.fibre} of {tex:g} tex)"
    text = (
        f"a corner triangle of {count} stitches, in thread that breaks at {thread:g} N{given}, "
        f"holds about {holds:.0f} N ({holds / N_PER_KG:.0f} kg), and 10 cm of seam about "
        f"{along:.0f} N; an estimate: the cloth may tear first"
    )
    if load is not None:
        text += f"; the load of {seam.load:g} kg asks for {load:.0f} N"
    is_weak = load is not None and holds < load
    return Finding(
        code=CODE,
        level=Level.WARNING if is_weak else Level.NOTE,
        text=text,
        help="sew more passes, a larger triangle or shorter stitches, or use stronger thread"
        if is_weak
        else "",
        stage=stage.name,
        where=where,
        value=holds,
        limit=load,
    )


def _weaker_triangle(stage: Stage) -> tuple[int, tuple[float, float]]:
    """Return the stitches of the triangle that has fewer, and its middle."""
    ends = [
        sewn.stitches.xy[sewn.stitches.stitch_rows] for sewn in stage.hoopings
    ]  # each of shape (k, 2, 2)
    middles = np.concatenate(ends).mean(axis=1)
    counted = [
        (int(shapely.contains_xy(area, middles).sum()), area) for area in triangles_of((stage,))
    ]
    count, area = min(counted, key=lambda one: one[0])
    return count, (area.centroid.x, area.centroid.y)
