"""The order and direction of walks: from the middle outwards, then by least travel.

Anchors come first, then quilting, mouth, edge and seam. The walks of a set are sewn from the
middle to one side, then from the middle to the other, so that slack is pushed to the open
edges, and one set after another, so that a crossing set is sewn in one direction. Within
that, directions are chosen for the fewest cuts and the least travel, exactly. Walks that run
every way have no such order: they are sewn for least travel where that closes no loop round
what is not sewn, else from the inside out.

Walks are joined over what is sewn anyway where that costs less than a cut, but not those that
quilting lines of a later set still have to cross: a join at their ends would close a loop round
what is not sewn yet. No stretch is sewn a third time: where a join would go over one that is
sewn again already, the thread is cut.
"""

from collections import defaultdict
from dataclasses import dataclass
from itertools import chain, pairwise, product

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.model.line import LineKind
from stitchpath.route.directions import (
    Choice,
    Turned,
    Ways,
    cheapest,
    onward,
    passages,
    standing,
    traced,
)
from stitchpath.route.enclosure import inside_out
from stitchpath.route.graph import LineGraph
from stitchpath.route.hops import Barriers, may_hop
from stitchpath.route.legs import Leg
from stitchpath.route.sets import WILD, Sets
from stitchpath.route.walk import Walk, walk_of


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Site:
    """What walks are ordered by: the graph, the sets of its lines, the ways to join walks.

    Attributes:
        graph: The lines.
        sets: Which lines run the same way.
        ways: How the needle may get from walk to walk.
        same_direction: Sew all walks of a set in one direction, rather than to and fro.
        closes_loops: Join walks even where a later set still crosses them.
        again: The legs that walks sew again already.
    """

    graph: LineGraph
    sets: Sets
    ways: Ways
    same_direction: bool = False
    closes_loops: bool = False
    again: tuple[Leg, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Placed:
    """A walk in its place and direction, and the legs that join it to the one before.

    Attributes:
        walk: The walk.
        legs: What is sewn again on the way to it; None where it is not joined.
    """

    walk: Walk
    legs: list[Leg] | None


def in_order(walks: list[Walk], site: Site, *, start: Points) -> list[Placed]:
    """Return walks in the order of sewing, each in its direction.

    Args:
        walks: At least one.
        site: What they are ordered by.
        start: Where sewing may begin, shape (2,); taken for where the needle is.
    """
    if len(walks) == 1 and not site.same_direction:
        # where the needle is before the first walk is anybody's guess
        return [Placed(walk=walks[0], legs=None)]
    groups: dict[tuple[int, bool, int], list[Walk]] = defaultdict(list)
    for walk in walks:
        number = _set_of(walk, site.sets)
        groups[walk.rank, number == WILD, number].append(walk)
    in_turn = sorted(groups.items())
    may_join = _joinable([group for _, group in in_turn], site)
    choices = [standing(tuple(start.tolist()))]
    for ((_, is_wild, _), group), joinable in zip(in_turn, may_join, strict=True):
        if is_wild:
            choices = _wild(choices, group, site, may_join=joinable)
        else:
            choices = _outwards(choices, group, site, may_join=joinable)
    return _placed(traced(cheapest(choices)), site)


def count_runs(placed: list[Placed], barriers: Barriers) -> int:
    """Return how many runs walks come to: the thread is cut where no join or hop leads on."""
    return 1 + sum(
        after.legs is None
        and not may_hop(before.walk.places[1], after.walk.places[0], barriers)
        for before, after in pairwise(placed)
    )


def joined(placed: list[Placed], graph: LineGraph) -> list[Walk]:
    """Return walks in their order; those that are joined are one."""
    walks: list[Walk] = []
    for each in placed:
        if each.legs is None:
            walks.append(each.walk)
        else:
            between = walk_of(graph, each.legs) if each.legs else None
            walks[-1] = walks[-1].then(between).then(each.walk)
    return walks


def _joinable(groups: list[list[Walk]], site: Site) -> list[list[bool]]:
    """Return for each walk of each group whether no quilting line of a later group meets it."""
    if site.closes_loops:
        return [[True] * len(group) for group in groups]
    # a column for every quilting line: the place of its group and its walk, and how many nodes
    numbers = [number for number, group in enumerate(groups) for _ in group]
    own = [
        (nodes, numbers[walk], walk)
        for walk, each in enumerate(chain.from_iterable(groups))
        for nodes in _quilting_nodes(each, site.graph)
    ]
    may_join = np.ones(len(numbers), dtype=np.bool_)
    if own:
        nodes = np.concatenate([each for each, *_ in own])
        counts = [len(each) for each, *_ in own]
        number, walk = np.repeat(np.array([each[1:] for each in own]), counts, axis=0).T
        latest = np.zeros(len(site.graph.places), dtype=np.intp)
        latest[nodes] = number  # the last one stays
        may_join[walk[latest[nodes] > number]] = False
    told = iter(may_join.tolist())
    return [[next(told) for _ in group] for group in groups]


def _quilting_nodes(walk: Walk, graph: LineGraph) -> list[NDArray[np.intp]]:
    return [
        graph.nodes[source]
        for source in walk.sources
        if graph.lines[source].kind is LineKind.QUILTING
    ]


def sewing_places(sets: Sets) -> NDArray[np.intp]:
    """Return how late each line is sewn, as far as its set says: larger is later."""
    return np.where(sets.number == WILD, -1, sets.number * (sets.level.max() + 1) + sets.level)


def _set_of(walk: Walk, sets: Sets) -> int:
    numbers = {int(sets.number[source]) for source in walk.sources}
    return numbers.pop() if len(numbers) == 1 else WILD


def _outwards(
    choices: list[Choice], walks: list[Walk], site: Site, *, may_join: list[bool]
) -> list[Choice]:
    """Sew the walks of a set, first one side of the middle and then the other.

    Walks of one level, such as the parts of a line that a block interrupts, are sewn along the
    line, and those of the next level back again unless all go in the same direction.
    """
    places = [_place(walk, site.sets) for walk in walks]
    sides = {side for side, _, _ in places}
    both = (1, -1)
    ways = [
        passages(walk, _turns(walk, site), may_join=joins)
        for walk, joins in zip(walks, may_join, strict=True)
    ]
    orders = dict.fromkeys(
        _sorted(places, first, onwards, middle_on)
        for first, onwards, middle_on in product(
            both if len(sides) > 1 else (1,),  # where all lie on one side no other comes first
            (0,) if site.same_direction else both,
            both if 0 in sides else (1,),
        )
    )
    return [
        choice
        for order in orders
        for choice in onward(choices, [ways[index] for index in order], site.ways)
    ]


def _place(walk: Walk, sets: Sets) -> tuple[int, int, float]:
    """Return a walk's side of the middle, its level there, and how far along it lies."""
    inner = min(walk.sources, key=lambda source: int(sets.level[source]))
    return int(sets.side[inner]), int(sets.level[inner]), float(sets.advance[inner])


def _sorted(
    places: list[tuple[int, int, float]], first: int, onwards: int, middle_on: int
) -> tuple[int, ...]:
    """Return walks in order.

    Args:
        places: Of each walk, its side, level, and how far along it lies.
        first: The side that comes first.
        onwards: The way along level 0, and 0 along every level.
        middle_on: The side that what lies on the middle goes with.
    """
    keys = [
        ((side or middle_on) != first, level, advance * (onwards * (-1) ** level or 1))
        for side, level, advance in places
    ]
    return tuple(sorted(range(len(places)), key=keys.__getitem__))


def _turns(walk: Walk, site: Site) -> tuple[bool, ...]:
    """Return which ways round a walk may be sewn: outwards, and as is asked for."""
    first, last = site.sets.level[walk.sources[0]], site.sets.level[walk.sources[-1]]
    if first != last:
        return (bool(first > last),)
    if not site.same_direction:
        return (False, True)
    way = np.radians(site.sets.way_deg[walk.sources[0]])
    step = walk.ends[1] - walk.ends[0]
    return (bool(step @ [np.cos(way), np.sin(way)] < 0),)


def _wild(
    choices: list[Choice], walks: list[Walk], site: Site, *, may_join: list[bool]
) -> list[Choice]:
    """Sew walks that run every way; what holds layers is sewn before edges and seams."""
    before = cheapest(choices)
    sewn = [each.walk for each in traced(before)]
    order = inside_out(sewn, walks, start=np.array(before.passage.end))
    turned = [walks[index].reversed if turn else walks[index] for index, turn in order]
    ways = [
        passages(
            walk.reversed if walk.is_backwards else walk,
            (False,),
            may_join=index == len(walks) - 1 and may_join[order[-1][0]],
        )
        for index, walk in enumerate(turned)
    ]
    return onward([before], ways, site.ways)


def _placed(sewn: list[Turned], site: Site) -> list[Placed]:
    """Return walks in their places; a join over what is sewn again already is a cut."""
    worn = {_key(leg) for leg in site.again}
    placed: list[Placed] = []
    for each in sewn:
        legs = None
        if each.joined:
            legs = site.ways.joins.legs(placed[-1].walk.nodes[1], each.walk.nodes[0])
            if worn & {_key(leg) for leg in legs}:
                legs = None
        worn.update(_key(leg) for leg in legs or ())
        placed.append(Placed(walk=each.walk, legs=legs))
    return placed


def _key(leg: Leg) -> tuple[int, float]:
    return leg.line, min(leg.start, leg.end)
