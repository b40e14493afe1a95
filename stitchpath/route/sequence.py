"""The order and direction of walks: from the middle outwards, then by least travel.

Anchors come first, then quilting, mouth, edge and seam. The walks of a set are sewn from the
middle to one side, then from the middle to the other, so that slack is pushed to the open
edges, and one set after another, so that a crossing set is sewn in one direction. Within
that, directions are chosen for the fewest cuts and the least travel, exactly. Walks that run
every way have no such order and are sewn for least travel.

The walks of a set are joined over what is sewn anyway where that costs less than a cut, but not
while another set still has to cross them: a join at their ends would close a loop round what is
not sewn yet. No stretch is sewn a third time: where a join would go over one that is sewn again
already, the thread is cut.
"""

from collections import defaultdict
from dataclasses import dataclass, replace
from itertools import product
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.model.line import LineKind
from stitchpath.route.directions import Needle, Ways, directed
from stitchpath.route.graph import LineGraph
from stitchpath.route.legs import Leg
from stitchpath.route.sets import WILD, Sets
from stitchpath.route.travel import shortest_order
from stitchpath.route.walk import Walk, walk_of


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Site:
    """What walks are ordered by: the graph, the sets of its lines, the ways to join walks.

    Attributes:
        graph: The lines.
        sets: Which lines run the same way.
        ways: How the needle may get from walk to walk.
        same_direction: Sew all walks of a set in one direction, rather than to and fro.
        worn: Stretches that are sewn again already, by line and place; filled on the way.
    """

    graph: LineGraph
    sets: Sets
    ways: Ways
    same_direction: bool
    worn: set[tuple[int, float]]

    def wear(self, legs: list[Leg]) -> bool:
        """Sew legs again, unless one of them has been; return whether that was so."""
        keys = {(leg.line, min(leg.start, leg.end)) for leg in legs}
        if keys & self.worn:
            return False
        self.worn.update(keys)
        return True


def in_order(walks: list[Walk], site: Site, *, start: Points) -> list[Walk]:
    """Return walks in the order of sewing, each in its direction.

    Args:
        walks: At least one.
        site: What they are ordered by.
        start: Where sewing may begin, shape (2,); taken for where the needle is.

    Returns:
        The walks; those that it is cheaper to join than to cut between are one.
    """
    groups: dict[tuple[int, bool, int], list[Walk]] = defaultdict(list)
    for walk in walks:
        number = _set_of(walk, site.sets)
        groups[walk.rank, number == WILD, number].append(walk)
    ordered: list[Walk] = []
    needle = Needle(place=tuple(start.tolist()))
    in_turn = sorted(groups.items())
    crossed = _crossed_later([group for _, group in in_turn], site.graph)
    for ((_, is_wild, _), group), is_crossed in zip(in_turn, crossed, strict=True):
        if len(walks) == 1 and not site.same_direction:
            ordered += group  # where the needle is before the first walk is anybody's guess
        elif is_wild:
            ordered += _least_travel(group, np.array(needle.place))
        else:
            here = replace(site, ways=site.ways.without_joins()) if is_crossed else site
            _add(ordered, _outwards(group, here, needle), site)
        node = -1 if is_crossed else ordered[-1].nodes[1]
        needle = Needle(place=tuple(ordered[-1].ends[1].tolist()), node=node)
    return ordered


def _crossed_later(groups: list[list[Walk]], graph: LineGraph) -> list[bool]:
    """Return for each group whether a quilting line of a later one meets it."""
    sources = [
        [
            source
            for walk in group
            for source in walk.sources
            if graph.lines[source].kind is LineKind.QUILTING
        ]
        for group in groups
    ]
    nodes = [
        np.concatenate([graph.nodes[source] for source in own] or [np.empty(0, dtype=np.intp)])
        for own in sources
    ]
    latest = np.zeros(len(graph.places), dtype=np.intp)
    for number, own in enumerate(nodes):
        latest[own] = number
    return [bool((latest[own] > number).any()) for number, own in enumerate(nodes)]


def sewing_places(sets: Sets) -> NDArray[np.intp]:
    """Return how late each line is sewn, as far as its set says: larger is later."""
    return np.where(sets.number == WILD, -1, sets.number * (sets.level.max() + 1) + sets.level)


def _set_of(walk: Walk, sets: Sets) -> int:
    numbers = {int(sets.number[source]) for source in walk.sources}
    return numbers.pop() if len(numbers) == 1 else WILD


_Sewn: TypeAlias = list[tuple[Walk, bool]]
"""Walks in their order and directions, each with whether it is joined to the one before."""


def _outwards(walks: list[Walk], site: Site, needle: Needle) -> _Sewn:
    """Return the walks of a set, first one side of the middle and then the other.

    Walks of one level, such as the parts of a line that a block interrupts, are sewn along the
    line, and those of the next level back again unless all go in the same direction.
    """
    places = [_place(walk, site.sets) for walk in walks]
    orders = dict.fromkeys(
        _sorted(places, side, onwards)
        for side, onwards in product((1, -1), (0,) if site.same_direction else (1, -1))
    )
    options = []
    for order in orders:
        group = [walks[index] for index in order]
        turns = [_turns(walk, site) for walk in group]
        seconds, sewn = directed(group, turns, site.ways, needle)
        options.append((seconds, group, sewn))
    _, group, sewn = min(options, key=lambda option: option[0])
    return [
        (group[each.index].reversed() if each.turned else group[each.index], each.joined)
        for each in sewn
    ]


def _place(walk: Walk, sets: Sets) -> tuple[int, int, float]:
    """Return a walk's side of the middle, its level there, and how far along it lies."""
    inner = min(walk.sources, key=lambda source: int(sets.level[source]))
    return int(sets.side[inner]), int(sets.level[inner]), float(sets.advance[inner])


def _sorted(
    places: list[tuple[int, int, float]], first_side: int, onwards: int
) -> tuple[int, ...]:
    """Return walks in order; `onwards` is the way along level 0, and 0 is along every level."""
    keys = [
        (side != first_side, level, advance * (onwards * (-1) ** level or 1))
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


def _add(ordered: list[Walk], sewn: _Sewn, site: Site) -> None:
    """Add walks to those in order, each to the one before where they are joined."""
    for walk, is_joined in sewn:
        legs = _join(ordered[-1], walk, site) if is_joined else None
        if legs is None:
            ordered.append(walk)
        else:
            between = walk_of(site.graph, legs) if legs else None
            ordered[-1] = ordered[-1].then(between).then(walk)


def _join(walk: Walk, after: Walk, site: Site) -> list[Leg] | None:
    """Return the legs from a walk to the one after it, or None where they are worn."""
    legs = site.ways.joins.legs(walk.nodes[1], after.nodes[0])
    return legs if site.wear(legs) else None


def _least_travel(walks: list[Walk], needle: Points) -> list[Walk]:
    """Return walks that run every way; what holds layers is sewn before edges and seams."""
    order = shortest_order(np.array([walk.ends for walk in walks]), start=needle)
    turned = [walks[index].reversed() if turn else walks[index] for index, turn in order]
    return [walk.reversed() if walk.is_backwards else walk for walk in turned]
