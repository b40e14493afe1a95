"""The route of a hooping: which walks sew its lines, in which order, and what that costs."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

import numpy as np
import shapely

from stitchpath.geometry.points import Points, path_length
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
from stitchpath.route.rings import find_ring, ring_from
from stitchpath.route.sequence import (
    Placed,
    Site,
    count_runs,
    in_order,
    joined,
    sewing_places,
)
from stitchpath.route.set_orders import set_orders
from stitchpath.route.sets import WILD, find_sets
from stitchpath.route.starts import Sewn, with_starts
from stitchpath.route.trails import find_trails
from stitchpath.route.walk import Walk, walk_of


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
    start, hide = np.array(middle), edges or shapely.Point()
    site = _site(lines, costs, middle, barriers)
    placed, saved = _placed(site, start)
    runs = _runs(placed, site, hide, start)
    islands = _count_closed_in(runs)
    if islands and not site.closes_loops:
        for other in _others(site, is_joined=any(line.again for line in _lines(runs))):
            tried = _runs(_ordered(other, start), other, hide, start)
            fewer = _count_closed_in(tried)
            if (fewer, len(tried)) < (islands, len(runs)):
                saved = max(0, saved + len(tried) - len(runs))
                runs, islands = tried, fewer
    figures = _figures(runs, least_runs=site.graph.least_runs)
    return Route(runs=runs, figures=replace(figures, islands=islands, open_cuts=saved))


def _others(site: Site, *, is_joined: bool) -> Iterator[Site]:
    """Yield what may close fewer lines in: no sets, but inside out; and nothing joined."""
    no_sets = replace(site.sets, number=np.full_like(site.sets.number, WILD))
    if (site.sets.number != WILD).any() and not site.same_direction:
        yield replace(site, sets=no_sets)
    if is_joined:
        apart = replace(site, ways=site.ways.without_joins(), again=())
        yield apart
        yield replace(apart, sets=no_sets)


def _site(
    lines: tuple[Line, ...], costs: Costs, middle: tuple[float, float], barriers: Barriers
) -> Site:
    graph = line_graph(lines)
    sets = find_sets(lines, middle)
    joins = find_joins(graph, costs, barriers)
    wild = np.flatnonzero(sets.number == WILD).tolist()
    return Site(
        graph=graph,
        sets=sets,
        ways=Ways(joins=joins, barriers=barriers),
        same_direction=costs.same_direction,
        closes_loops=costs.closes_loops,
        again=tuple(legs_to_sew_again(graph, joins, wild)),
    )


def _ordered(site: Site, start: Points) -> list[Placed]:
    """Return walks in order; a ring round all goes on from the last of them if it can."""
    ring = find_ring(site.graph)
    if ring is not None:
        placed = in_order(_walks(site, without=(ring,)), site, start=start)
        last = ring_from(site.graph, ring, placed[-1].walk)
        if last is not None:
            return [*placed, Placed(walk=last, legs=[])]
    return in_order(_walks(site), site, start=start)


def _walks(site: Site, *, without: tuple[int, ...] = ()) -> list[Walk]:
    late = sewing_places(site.sets)
    trails = find_trails(site.graph, site.again, late, without=without)
    return [walk_of(site.graph, trail) for trail in trails]


def _placed(site: Site, start: Points) -> tuple[list[Placed], int]:
    """Return the order of the fewest runs of all orders of the sets, the first of equals.

    Returns:
        The walks, and how many cuts more they take than if loops might be closed.
    """
    given = _ordered(site, start)
    if site.closes_loops or not site.ways.joins.steps:
        return given, 0
    others = [replace(site, sets=sets) for sets in set_orders(site.graph, site.sets)]
    orders = [given, *(_ordered(other, start) for other in others)]
    counts = [count_runs(order, site.ways.barriers) for order in orders]
    closing = _ordered(replace(site, closes_loops=True), start)
    saved = max(0, min(counts) - count_runs(closing, site.ways.barriers))
    return orders[int(np.argmin(counts))], saved


def _runs(
    placed: list[Placed], site: Site, hide: shapely.Geometry, start: Points
) -> tuple[Run, ...]:
    """Join the walks, begin closed ones where it hides, part them where no hop leads on."""
    walks = joined(placed, site.graph)
    sewn = with_starts([walk.lines for walk in walks], hide, start)
    return _cut(sewn, site.ways.barriers)


def _cut(sewn: list[Sewn], barriers: Barriers) -> tuple[Run, ...]:
    """Part the ordered walks wherever the needle may not hop to the next."""
    runs: list[list[Line]] = []
    for lines in sewn:
        if runs and may_hop(runs[-1][-1].points[-1], lines[0].points[0], barriers):
            runs[-1] += lines
        else:
            runs.append(list(lines))
    return tuple(Run(lines=tuple(run)) for run in runs)


def _lines(runs: tuple[Run, ...]) -> list[Line]:
    return [line for run in runs for line in run.lines]


def _count_closed_in(runs: tuple[Run, ...]) -> int:
    """Return how many lines are closed in; those of a run may close one another in."""
    return count_islands(tuple(Run(lines=(line,)) for line in _lines(runs)))


def _figures(runs: tuple[Run, ...], *, least_runs: int) -> RouteFigures:
    lines = _lines(runs)
    moves = [after.points[0] - before.points[-1] for before, after in pairwise(lines)]
    return RouteFigures(
        runs=len(runs),
        least_runs=least_runs,
        retraced_mm=sum(path_length(line.points) for line in lines if line.again),
        travel_mm=sum(float(np.hypot(*move)) for move in moves),
    )
