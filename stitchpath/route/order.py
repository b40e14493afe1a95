"""The route of a hooping: which walks sew its lines, in which order, and what that costs."""

from itertools import pairwise

import numpy as np

from stitchpath.geometry.points import path_length
from stitchpath.model.line import Line
from stitchpath.model.route import Route, RouteFigures
from stitchpath.model.stitches import Run
from stitchpath.route.costs import Costs
from stitchpath.route.graph import line_graph
from stitchpath.route.islands import count_islands
from stitchpath.route.joins import find_joins
from stitchpath.route.retrace import legs_to_sew_again
from stitchpath.route.sequence import Site, in_order
from stitchpath.route.sets import WILD, find_sets
from stitchpath.route.trails import find_trails
from stitchpath.route.walk import Walk, walk_of

UNCUT_TRAVEL_MM = 6.0
"""Longer travel cuts the thread: a longer float of thread on a quilt snags, and nothing covers
it. Common practice (5 to 8 mm), no source."""


def order_runs(lines: tuple[Line, ...], costs: Costs, *, middle: tuple[float, float]) -> Route:
    """Return the runs of one hooping in the order of sewing; each line is in one of them.

    Args:
        lines: What the hooping sews; at least one.
        costs: Which ways of travelling are allowed, and what they cost.
        middle: Of the piece; lines are sewn from there outwards.
    """
    graph = line_graph(lines)
    sets = find_sets(lines, middle)
    joins = find_joins(graph, costs)
    wild = np.flatnonzero(sets.number == WILD).tolist()
    trails = find_trails(graph, legs_to_sew_again(graph, joins, wild))
    site = Site(graph=graph, sets=sets, joins=joins, same_direction=costs.same_direction)
    walks = [walk_of(graph, trail) for trail in trails]
    ordered = in_order(walks, site, start=np.array(middle))
    runs = _cut(ordered)
    figures = RouteFigures(
        runs=len(runs),
        least_runs=graph.least_runs,
        retraced_mm=sum(
            path_length(line.points) for walk in ordered for line in walk.lines if line.again
        ),
        travel_mm=sum(
            float(np.hypot(*(after.points[0] - before.points[-1])))
            for before, after in pairwise(line for run in runs for line in run.lines)
        ),
        islands=count_islands(runs),
    )
    return Route(runs=runs, figures=figures)


def _cut(walks: list[Walk]) -> tuple[Run, ...]:
    """Part the ordered walks wherever the way to the next is too long to leave a float."""
    runs: list[list[Line]] = []
    for walk in walks:
        travel = np.hypot(*(walk.ends[0] - runs[-1][-1].points[-1])) if runs else np.inf
        if travel <= UNCUT_TRAVEL_MM:
            runs[-1] += walk.lines
        else:
            runs.append(list(walk.lines))
    return tuple(Run(lines=tuple(run)) for run in runs)
