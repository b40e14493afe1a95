"""Does the presser foot keep clear of the hoop's ring?

Measure: for every needle point and every move without sewing, the distance from the needle to
the ring's inner edge, in the field's own axes and so at any turn, on the grid of stitch files;
the foot reaches `machine.foot` from the needle and has to end before it. The ring's opening is
a rectangle, its corners as round as `machine.ring_corner`. Nothing in it bulges inwards, so
between two places, and on the way from the field's centre to the first and back from the last,
the foot is never nearer to the ring than at one of the ends (geometry: the room of the foot's
middle is convex).

Limits: `machine.foot`, 6.35 mm: a round quilting foot is 1/2 in across, its needle in the
middle (see docs/sources.md). The opening is `machine.ring` less `machine.ring_wall`, 10 mm wide
(common practice, no source). What else comes down beside the needle, its clamp and the screw,
may reach farther than the foot on one side: measure to that. Thick layers push the inner ring
in by some mm. A trace at the machine is the proof.
"""

from collections.abc import Iterator
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, on_grid, parts_of
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.model.finding import Finding, Level
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.units import format_small_length

CODE = "foot-clearance"
_NOISE_MM: Final = GRID_MM / 100
_Nearest: TypeAlias = tuple[float, int, tuple[float, float]]
"""How near the needle comes to the ring, mm; in which hooping; where on the piece."""


def check(plan: Plan) -> Iterator[Finding]:
    """Point at each stage's place where the foot would strike, or tell the nearest of all."""
    foot = plan.project.machine.foot
    nearest = [(stage, _nearest_places(plan, stage)) for stage in plan.stages]
    nearest = [(stage, places) for stage, places in nearest if places]
    struck = [one for one in nearest if min(one[1])[0] < foot - _NOISE_MM]
    if struck:
        yield from (_strikes(plan, stage, places) for stage, places in struck)
    elif nearest:
        yield _keeps_clear(plan, *min(nearest, key=lambda one: min(one[1])))


def to_ring(
    places: Points, opening: tuple[float, float], corner_mm: float
) -> NDArray[np.float64]:
    """Return how far places are from a ring's inner edge, shape (n,), mm; below 0 beyond it.

    Args:
        places: From the opening's middle, along its own axes, shape (n, 2), mm.
        opening: Its width and height, mm.
        corner_mm: Radius of its corners; more than half of a side counts as half of it.
    """
    half = np.array(opening) / 2
    corner = min(corner_mm, half.min())
    past = np.abs(places) - half + corner
    inside = np.minimum(np.maximum(past[:, 0], past[:, 1]), 0.0)
    outside = np.maximum(past, 0.0)
    return np.asarray(corner - inside - np.hypot(outside[:, 0], outside[:, 1]))


def _nearest_places(plan: Plan, stage: Stage) -> list[_Nearest]:
    return [_nearest(sewn, plan.project.machine) for sewn in stage.hoopings]


def _nearest(sewn: SewnHooping, machine: Machine) -> _Nearest:
    hooping = sewn.hooping
    opening = machine.opening_of(hooping.ring or machine.ring_of(hooping.field))
    away = np.empty(len(sewn.stitches))
    for part in parts_of(len(away)):
        places = on_grid(hooping.to_field(sewn.stitches.xy[part]))
        away[part] = to_ring(places, opening, machine.ring_corner)
    row = int(np.argmin(away))
    x, y = sewn.stitches.xy[row].tolist()
    return float(away[row]), hooping.number, (x, y)


def _strikes(plan: Plan, stage: Stage, places: list[_Nearest]) -> Finding:
    unit, foot = plan.project.units, plan.project.machine.foot
    away, number, where = min(places)
    struck = sum(one[0] < foot - _NOISE_MM for one in places)
    others = f" (so it does in {struck} of {len(places)} hoopings)" if struck > 1 else ""
    ring = "the needle comes to the ring"
    if away > 0:
        ring = f"the ring is {format_small_length(away, unit)} away"
    return Finding(
        code=CODE,
        level=Level.ERROR,
        text=f"the presser foot strikes the hoop's ring in hooping {number}: it reaches "
        f"{format_small_length(foot, unit)} from the needle, and {ring}{others}",
        help="give machine.field less by what is missing, on both sides, or measure "
        "machine.ring, ring_wall and foot again",
        stage=stage.name,
        where=where,
        value=away,
        limit=foot,
    )


def _keeps_clear(plan: Plan, stage: Stage, places: list[_Nearest]) -> Finding:
    foot = plan.project.machine.foot
    away, number, where = min(places)
    clear = format_small_length(away - foot, plan.project.units)
    return Finding(
        code=CODE,
        level=Level.NOTE,
        text=f"the presser foot keeps {clear} or more clear of the hoop's ring, "
        f"least in hooping {number}",
        stage=stage.name,
        where=where,
        value=away,
        limit=foot,
    )
