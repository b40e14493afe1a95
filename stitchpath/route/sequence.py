"""The order and direction of walks: from the middle outwards, then by least travel.

Anchors come first, then quilting, mouth, edge and seam. The walks of a set are sewn from the
middle to one side, then from the middle to the other, so that slack is pushed to the open
edges, and one set after another, so that a crossing set is sewn in one direction. Within
that, directions are chosen for the fewest cuts and the least travel, exactly. Walks that run
every way have no such order and are sewn for least travel.
"""

from collections import defaultdict
from dataclasses import dataclass

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.route.directions import Turned, directed
from stitchpath.route.graph import LineGraph
from stitchpath.route.joins import Joins
from stitchpath.route.sets import WILD, Sets
from stitchpath.route.travel import shortest_order
from stitchpath.route.walk import Walk, walk_of


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Site:
    """What walks are ordered by: the graph, the sets of its lines, the ways to join walks.

    Attributes:
        graph: The lines.
        sets: Which lines run the same way.
        joins: Ways over what is sewn anyway that cost less than a cut.
        same_direction: Sew all walks of a set in one direction, rather than to and fro.
    """

    graph: LineGraph
    sets: Sets
    joins: Joins
    same_direction: bool


def in_order(walks: list[Walk], site: Site, *, start: Points) -> list[Walk]:
    """Return walks in the order of sewing, each in its direction.

    Args:
        walks: At least one.
        site: What they are ordered by.
        start: Where sewing may begin, shape (2,); taken for where the needle is.

    Returns:
        The walks; those of a set that it is cheaper to join than to cut between are one.
    """
    groups: dict[tuple[int, bool, int], list[Walk]] = defaultdict(list)
    for walk in walks:
        number = _set_of(walk, site.sets)
        groups[walk.rank, number == WILD, number].append(walk)
    ordered: list[Walk] = []
    needle = start
    for (_, is_wild, _), group in sorted(groups.items()):
        ordered += _least_travel(group, needle) if is_wild else _outwards(group, site, needle)
        needle = ordered[-1].ends[1]
    return ordered


def _set_of(walk: Walk, sets: Sets) -> int:
    numbers = {int(sets.number[source]) for source in walk.sources}
    return numbers.pop() if len(numbers) == 1 else WILD


def _outwards(walks: list[Walk], site: Site, needle: Points) -> list[Walk]:
    """Return the walks of a set, first one side of the middle and then the other."""
    places = [_place(walk, site.sets) for walk in walks]
    sides = [
        sorted(
            (index for index, place in enumerate(places) if place[0] == side),
            key=lambda index: places[index][1:],
        )
        for side in (1, -1)
    ]
    options = []
    for order in (sides[0] + sides[1], sides[1] + sides[0]):
        group = [walks[index] for index in order]
        turns = [_turns(walk, site) for walk in group]
        seconds, sewn = directed(group, turns, site.joins, needle)
        options.append((seconds, group, sewn))
    _, group, sewn = min(options, key=lambda option: option[0])
    return _joined(group, sewn, site)


def _place(walk: Walk, sets: Sets) -> tuple[int, int, float]:
    inner = min(walk.sources, key=lambda source: int(sets.level[source]))
    return int(sets.side[inner]), int(sets.level[inner]), float(sets.advance[inner])


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


def _joined(walks: list[Walk], sewn: list[Turned], site: Site) -> list[Walk]:
    """Return the walks in their directions, those that are joined as one."""
    joined: list[Walk] = []
    for each in sewn:
        walk = walks[each.index].reversed() if each.turned else walks[each.index]
        if each.joined:
            legs = site.joins.legs(joined[-1].nodes[1], walk.nodes[0])
            between = walk_of(site.graph, legs) if legs else None
            joined[-1] = joined[-1].then(between).then(walk)
        else:
            joined.append(walk)
    return joined


def _least_travel(walks: list[Walk], needle: Points) -> list[Walk]:
    order = shortest_order(np.array([walk.ends for walk in walks]), start=needle)
    return [walks[index].reversed() if turned else walks[index] for index, turned in order]
