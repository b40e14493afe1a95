"""The route of a hooping: which walks sew its lines, in which order, and what that costs."""

from itertools import pairwise

import numpy as np
import shapely

from stitchpath.geometry.points import path_length
from stitchpath.model.line import Line
from stitchpath.model.route import Route, RouteFigures
from stitchpath.model.stitches import Run
from stitchpath.route.costs import Costs
from stitchpath.route.directions import Ways
from stitchpath.route.graph import line_graph
from stitchpath.route.hops import Barriers, may_hop
from stitchpath.route.islands import count_islands
from stitchpath.route.joins import find_joins
from stitchpath.route.retrace import legs_to_sew_again
from stitchpath.route.sequence import Site, in_order, sewing_places
from stitchpath.route.sets import WILD, find_sets
from stitchpath.route.starts import Sewn, with_starts
from stitchpath.route.trails import find_trails
from stitchpath.route.walk import walk_of


def order_runs(
    lines: tuple[Line, ...],
    costs: Costs,
    *,
    middle: tuple[float, float],
    edges: shapely.Geometry | None = None,
    barriers: Barriers = None,
) -> Route:
    """Return the runs of one hooping in the order of sewing; each line is in one of them.

    Args:
        lines: What the hooping sews; at least one.
        costs: Which ways of travelling are allowed, and what they cost.
        middle: Of the piece; lines are sewn from there outwards.
        edges: Finished and sewn edges, where a start hides; None for none.
        barriers: What no thread may lie across; None for nothing of the kind.
    """
    if barriers is not None:
        shapely.prepare(barriers)
    graph = line_graph(lines)
    sets = find_sets(lines, middle)
    joins = find_joins(graph, costs, barriers)
    wild = np.flatnonzero(sets.number == WILD).tolist()
    again = legs_to_sew_again(graph, joins, wild)
    site = Site(
        graph=graph,
        sets=sets,
        ways=Ways(joins=joins, barriers=barriers),
        same_direction=costs.same_direction,
        worn={(leg.line, leg.start) for leg in again},
    )
    trails = find_trails(graph, again, sewing_places(sets))
    start = np.array(middle)
    walks = in_order([walk_of(graph, trail) for trail in trails], site, start=start)
    sewn = with_starts([walk.lines for walk in walks], edges or shapely.Point(), start)
    runs = _cut(sewn, barriers)
    return Route(runs=runs, figures=_figures(runs, least_runs=graph.least_runs))


def _cut(sewn: list[Sewn], barriers: Barriers) -> tuple[Run, ...]:
    """Part the ordered walks wherever the needle may not hop to the next."""
    runs: list[list[Line]] = []
    for lines in sewn:
        if runs and may_hop(runs[-1][-1].points[-1], lines[0].points[0], barriers):
            runs[-1] += lines
        else:
            runs.append(list(lines))
    return tuple(Run(lines=tuple(run)) for run in runs)


def _figures(runs: tuple[Run, ...], *, least_runs: int) -> RouteFigures:
    lines = [line for run in runs for line in run.lines]
    moves = [after.points[0] - before.points[-1] for before, after in pairwise(lines)]
    return RouteFigures(
        runs=len(runs),
        least_runs=least_runs,
        retraced_mm=sum(path_length(line.points) for line in lines if line.again),
        travel_mm=sum(float(np.hypot(*move)) for move in moves),
        islands=count_islands(runs),
    )
