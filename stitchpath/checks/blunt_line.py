"""Are lines followed where they bend tightly?

Measure: how far a place where a line bends lies from the nearest stitch, at bends so tight that
the shortest stitch is too long for them. A stitch of length s across a bend of radius r leaves
it by s^2 / 8r (geometry), so a shortest stitch of 1 mm, with its room for rounding, follows
bends of 3.3 mm to 0.05 mm; and of two corners that lie closer than it, one gets no needle
point. The worst place of each layout is told. Small letters are the usual case: their corners
all get one from the height on at which the shortest stroke beside a blunt corner is as long as
the shortest stitch, and that height is advised.

Limits: 0.05 mm; more than the 0.1 mm of a file's own grid is a warning, less a note. Where
another line passes closer, less is measured.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, segment_lengths, turns_between
from stitchpath.geometry.tolerance import DEVIATION_MM, GRID_MM, ROUNDING_MM, SAME_POINT_MM
from stitchpath.model.finding import Finding, Level
from stitchpath.model.machine import Machine
from stitchpath.model.plan import LaidLayout, Plan, Stage

CODE = "blunt-line"


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Bends:
    """Places where lines bend tightly, one row each.

    Attributes:
        layout: Number of the layout whose line it is.
        xy: Where, shape (n, 2), mm.
        stroke: The shorter of the segments that meet there, mm.
        off: How far it lies from the nearest stitch, mm.
    """

    layout: NDArray[np.intp]
    xy: Points
    stroke: NDArray[np.float64]
    off: NDArray[np.float64]


def check(plan: Plan) -> Iterator[Finding]:
    """Say of each layout how far its stitches leave its lines, where that is too far."""
    machine = plan.project.machine
    for stage in plan.stages:
        bends = _tight_bends(stage, machine)
        for number, laid in enumerate(stage.layouts):
            blunt = (bends.layout == number) & (bends.off > DEVIATION_MM + SAME_POINT_MM)
            if blunt.any():
                yield _finding(stage, laid, machine, bends, np.flatnonzero(blunt))


def _tight_bends(stage: Stage, machine: Machine) -> _Bends:
    shortest = machine.shortest_stitch + ROUNDING_MM
    last = np.cumsum([laid.lines for laid in stage.layouts])
    found: list[tuple[int, Points, NDArray[np.float64]]] = []
    for number in range(int(last[-1]) if len(last) else 0):
        points = stage.lines[number].points
        tight, stroke = _tight(points, shortest)
        if tight.any():
            layout = int(np.searchsorted(last, number, side="right"))
            found.append((layout, points[1:-1][tight], stroke[tight]))
    xy = np.concatenate([np.empty((0, 2)), *(xy for _, xy, _ in found)])
    off = _off_stitches(stage, xy) if len(xy) else np.empty(0)
    return _Bends(
        layout=np.repeat([layout for layout, _, _ in found], [len(xy) for _, xy, _ in found]),
        xy=xy,
        stroke=np.concatenate([np.empty(0), *(stroke for _, _, stroke in found)]),
        # what is not sewn at all is told by others
        off=np.where(off > machine.longest_stitch, 0.0, off),
    )


def _tight(points: Points, shortest_mm: float) -> tuple[NDArray[np.bool_], NDArray[np.float64]]:
    """Return at which inner vertices stitches may leave a line, and the shorter segment there.

    Either the line bends more tightly than the shortest stitch can follow, or a corner may have
    been left out for another one near it.
    """
    turn = turns_between(np.diff(points, axis=0))
    length = segment_lengths(points)
    stroke = np.minimum(length[1:], length[:-1])
    bends = turn > 4 * DEVIATION_MM / shortest_mm**2 * (length[1:] + length[:-1])
    crowded = (turn > 2 * DEVIATION_MM / shortest_mm) & (stroke < shortest_mm)
    return bends | crowded, stroke


def _off_stitches(stage: Stage, places: Points) -> NDArray[np.float64]:
    """Return how far places lie from the nearest stitch of a stage, mm; infinite for none."""
    parts = [sewn.stitches.xy[sewn.stitches.stitch_rows] for sewn in stage.hoopings]
    stitches = np.concatenate([np.empty((0, 2, 2)), *parts])
    off = np.full(len(places), np.inf)
    if len(stitches):
        tree = shapely.STRtree(np.asarray(shapely.linestrings(stitches)))
        points = np.asarray(shapely.points(places))
        _, off = tree.query_nearest(points, return_distance=True, all_matches=False)
    return off


def _finding(
    stage: Stage, laid: LaidLayout, machine: Machine, bends: _Bends, blunt: NDArray[np.intp]
) -> Finding:
    worst = blunt[bends.off[blunt].argmax()]
    off_mm, (x, y) = float(bends.off[worst]), bends.xy[worst].tolist()
    name = f"the text `{laid.text}`" if laid.text else f"the layout {laid.name}"
    return Finding(
        code=CODE,
        level=Level.WARNING if off_mm > GRID_MM else Level.NOTE,
        text=f"{name} is sewn up to {off_mm:.2f} mm beside its line: it bends too tightly for "
        f"stitches of {machine.shortest_stitch:g} mm",
        help=f"{_larger(laid, machine, float(bends.stroke[blunt].min()))}, or "
        "`machine.shortest_stitch` smaller",
        stage=stage.name,
        where=(x, y),
        value=off_mm,
        limit=DEVIATION_MM,
    )


def _larger(laid: LaidLayout, machine: Machine, stroke_mm: float) -> str:
    if not laid.text:
        return "make its bends wider"
    # sewing lets a needle point stand nearer than its room for rounding by a step of the grid
    factor = (machine.shortest_stitch + ROUNDING_MM - GRID_MM) / stroke_mm
    return f"make `height` {ceil(laid.height_mm * max(factor, 1.0))} mm or more"
