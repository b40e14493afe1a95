"""The route of a hooping: which walks sew its lines, in which order, and what that costs."""

from dataclasses import dataclass, field, replace
from itertools import pairwise

import numpy as np
import shapely

from stitchpath.geometry.points import Points, path_length
from stitchpath.model.line import Line
from stitchpath.model.route import Route, RouteFigures
from stitchpath.model.stitches import Run
from stitchpath.route.costs import Costs
from stitchpath.route.designs import with_designs
from stitchpath.route.directions import Ways
from stitchpath.route.graph import line_graph
from stitchpath.route.hops import Barriers, may_hop
from stitchpath.route.islands import count_islands
from stitchpath.route.joins import find_joins
from stitchpath.route.legs import Leg
from stitchpath.route.retrace import legs_to_sew_again, ways_of
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
from stitchpath.route.starts import with_starts
from stitchpath.route.trails import find_trails
from stitchpath.route.walk import Walk, walk_of

MOST_WAYS = 16
"""Of more ways sewn again none is tried by itself: each takes an order of its own."""


def order_runs(
    lines: tuple[Line, ...],
    costs: Costs,
    *,
    middle: tuple[float, float],
    edges: shapely.Geometry | None = None,
    barriers: Barriers = None,
) -> Route:
    """Return the runs of one hooping in the order of sewing; each line is in one of them.

    A line from a stitch file is a run by itself, sewn as the file has it.

    Args:
        lines: What the hooping sews; at least one.
        costs: Which ways of travelling are allowed, and what they cost.
        middle: Of the piece; lines are sewn from there outwards.
        edges: Finished and sewn edges, where a start hides; None for none.
        barriers: What no thread may lie across; None for nothing of the kind.
    """
    given = tuple(line for line in lines if line.file_run is not None)
    others = tuple(line for line in lines if line.file_run is None)
    ground = _Ground(start=np.array(middle), hide=edges or shapely.Point())
    route = _line_route(others, costs, ground, barriers) if others else _NO_ROUTE
    if not given:
        return route
    runs = with_designs(route.runs, given, middle)
    bare = route.figures
    figures = _figures(runs, least_runs=bare.least_runs + len(given))
    return Route(
        runs=runs, figures=replace(figures, islands=bare.islands, open_cuts=bare.open_cuts)
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Ground:
    """What all orders of a hooping's lines have in common.

    Attributes:
        start: Where the needle is before the first run, shape (2,).
        hide: Where starts hide.
        walks: Those found so far, by what they depend on.
    """

    start: Points
    hide: shapely.Geometry
    walks: dict[tuple[tuple[Leg, ...], int | None, bytes], list[Walk]] = field(
        default_factory=dict
    )


_NO_ROUTE = Route(runs=(), figures=RouteFigures())


def _line_route(
    lines: tuple[Line, ...], costs: Costs, ground: _Ground, barriers: Barriers
) -> Route:
    """Return the route of lines whose needle points are still to be made."""
    if barriers is not None:
        shapely.prepare(barriers)
    site = _site(lines, costs, ground, barriers)
    placed, saved = _placed(site, ground)
    first = _trial(placed, site, ground)
    best = first
    if first.islands and not site.closes_loops:
        best = _better(site, ground, first)
        saved = max(0, saved + len(best.runs) - len(first.runs))
    figures = _figures(best.runs, least_runs=site.graph.least_runs)
    return Route(
        runs=best.runs, figures=replace(figures, islands=best.islands, open_cuts=saved)
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Trial:
    """Runs, and how many lines they close in."""

    runs: tuple[Run, ...]
    islands: int


def _trial(placed: list[Placed], site: Site, ground: _Ground) -> _Trial:
    """Join the walks, begin closed ones where it hides, part them where no hop leads on.

    Lines closed in are counted line by line: lines of one run may close one another in.
    """
    walks = with_starts(joined(placed, site.graph), ground.hide, ground.start)
    runs = _cut([walk.lines for walk in walks], site.ways.barriers)
    legs = [[leg] for walk in walks for leg in walk.legs]
    return _Trial(runs=runs, islands=count_islands(site.graph, legs))


def _tried(site: Site, ground: _Ground) -> _Trial:
    return _trial(_ordered(site, ground), site, ground)


def _better(site: Site, ground: _Ground, first: _Trial) -> _Trial:
    """Return runs that close nothing in, the fewest found; else less without more runs.

    Tried are: no sets, but inside out; nothing joined; neither; and single ways sewn again.
    """
    no_sets = replace(site.sets, number=np.full_like(site.sets.number, WILD))
    sites = [replace(site, sets=no_sets)]
    is_joined = any(line.again for line in _lines(first.runs))
    if is_joined:
        apart = replace(site, ways=site.ways.without_joins(), again=())
        sites += [apart, replace(apart, sets=no_sets)]
    tried = [first, *(_tried(each, ground) for each in sites if not site.same_direction)]
    if is_joined and not all(trial.islands for trial in tried):
        tried.append(_with_single_ways(site, ground))
    open_ones = [trial for trial in tried if not trial.islands]
    if open_ones:
        return min(open_ones, key=lambda trial: len(trial.runs))
    no_more = [trial for trial in tried if len(trial.runs) <= len(first.runs)]
    return min(no_more, key=lambda trial: trial.islands)


def _with_single_ways(site: Site, ground: _Ground) -> _Trial:
    """Take one way sewn again after another where that closes nothing in."""
    ways = ways_of(site.again)
    taken = replace(site, again=())
    best = _tried(taken, ground)
    if best.islands or len(ways) > MOST_WAYS:
        return best
    for way in ways:
        more = replace(site, again=(*taken.again, *way))
        trial = _tried(more, ground)
        if not trial.islands and len(trial.runs) < len(best.runs):
            taken, best = more, trial
    return best


def _site(lines: tuple[Line, ...], costs: Costs, ground: _Ground, barriers: Barriers) -> Site:
    graph = line_graph(lines)
    x, y = ground.start.tolist()
    sets = find_sets(lines, (x, y))
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


def _ordered(site: Site, ground: _Ground, walks: list[Walk] | None = None) -> list[Placed]:
    """Return walks in order; a ring round all goes on from the last of them if it can.

    Args:
        site: What they are ordered by.
        ground: Where the needle is.
        walks: Those without the ring if they are known; the order of sets does not change them.
    """
    start, ring = ground.start, find_ring(site.graph)
    if ring is None:
        return in_order(_walks(site, ground), site, start=start)
    walks = _walks(site, ground, without=ring) if walks is None else walks
    # closed walks may have to be let into the ring, since they meet nothing else
    if any(walk.nodes[0] == walk.nodes[1] for walk in walks):
        return in_order(_walks(site, ground), site, start=start)
    placed = in_order(walks, site, start=start)
    last = ring_from(site.graph, ring, placed[-1].walk)
    if last is None:
        return in_order(_walks(site, ground), site, start=start)
    return [*placed, Placed(walk=last, legs=[])]


def _walks(site: Site, ground: _Ground, *, without: int | None = None) -> list[Walk]:
    """Return the walks of a site, as they were found before where nothing else would be."""
    late = sewing_places(site.sets)
    known, key = ground.walks, (site.again, without, late.tobytes())
    if key not in known:
        left_out = () if without is None else (without,)
        trails = find_trails(site.graph, site.again, late, without=left_out)
        known[key] = [walk_of(site.graph, trail) for trail in trails]
    return known[key]


def _placed(site: Site, ground: _Ground) -> tuple[list[Placed], int]:
    """Return the order of the fewest runs of all orders of the sets, the first of equals.

    Returns:
        The walks, and how many cuts more they take than if loops might be closed.
    """
    walks = _walks(site, ground, without=find_ring(site.graph))
    given = _ordered(site, ground, walks)
    if site.closes_loops or not site.ways.joins.steps:
        return given, 0
    others = [replace(site, sets=sets) for sets in set_orders(site.graph, site.sets)]
    orders = [given, *(_ordered(other, ground, walks) for other in others)]
    counts = [count_runs(order, site.ways.barriers) for order in orders]
    closing = _ordered(replace(site, closes_loops=True), ground, walks)
    saved = max(0, min(counts) - count_runs(closing, site.ways.barriers))
    return orders[int(np.argmin(counts))], saved


def _cut(sewn: list[tuple[Line, ...]], barriers: Barriers) -> tuple[Run, ...]:
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


def _figures(runs: tuple[Run, ...], *, least_runs: int) -> RouteFigures:
    lines = _lines(runs)
    moves = [after.points[0] - before.points[-1] for before, after in pairwise(lines)]
    return RouteFigures(
        runs=len(runs),
        least_runs=least_runs,
        retraced_mm=sum(path_length(line.points) for line in lines if line.again),
        travel_mm=sum(float(np.hypot(*move)) for move in moves),
    )
