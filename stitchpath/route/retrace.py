"""Which stretches to sew again so that the thread is cut less, at the least cost.

Each connected part is sewn in as many runs as half its odd nodes; a way sewn again between two
odd nodes makes both even and saves a cut. The best set of ways is a matching of odd nodes of
the greatest saving, where two nodes of each part stay free, since one run is needed anyway
(Edmonds and Johnson 1973, for the Chinese postman; here a pair may also be left to a cut). The
matching itself comes from rustworkx.
"""

from collections import defaultdict
from collections.abc import Collection
from dataclasses import replace

import numpy as np
import rustworkx

from stitchpath.route.graph import LineGraph
from stitchpath.route.joins import Joins
from stitchpath.route.legs import Leg

_PER_SECOND = 1e6  # the matching wants whole numbers
_FREE = 10**15  # more than all savings together


def legs_to_sew_again(graph: LineGraph, joins: Joins, lines: Collection[int]) -> list[Leg]:
    """Return the stretches that are worth sewing a second time; none of them twice.

    Args:
        graph: The lines.
        joins: The ways over them that cost less than a cut.
        lines: The lines whose ends may be joined.
    """
    again: dict[tuple[int, float], Leg] = {}
    for odd, others in _odd_nodes(graph, lines):
        for one, other in _matched(odd, joins, free=max(0, 2 - others)):
            for leg in joins.legs(one, other):
                # a stretch on two ways is on neither: the ways' other halves join up as well
                key = (leg.line, min(leg.start, leg.end))
                if again.pop(key, None) is None:
                    again[key] = leg if leg.start < leg.end else leg.reversed()
    return [replace(leg, again=True) for _, leg in sorted(again.items())]


def ways_of(legs: Collection[Leg]) -> list[list[Leg]]:
    """Return legs by the ways that they make: those that meet at nodes are together."""
    ways: list[list[Leg]] = []
    for leg in legs:
        met = [way for way in ways if any({*leg.nodes} & {*other.nodes} for other in way)]
        ways = [way for way in ways if way not in met]
        ways.append([leg, *(other for way in met for other in way)])
    return ways


def _odd_nodes(graph: LineGraph, lines: Collection[int]) -> list[tuple[list[int], int]]:
    """Return, by part, the odd nodes where one of some lines ends, and how many others are odd.

    A node is odd where an odd number of lines end.
    """
    odd = np.bincount(graph.ends.ravel(), minlength=len(graph.places)) % 2 == 1
    given = {int(node) for line in lines for node in graph.ends[line]}
    groups: dict[int, list[int]] = defaultdict(list)
    others: dict[int, int] = defaultdict(int)
    part = graph.parts
    for node in np.flatnonzero(odd).tolist():
        if node in given:
            groups[int(part[node])].append(node)
        else:
            others[int(part[node])] += 1
    return [(nodes, others[number]) for number, nodes in groups.items()]


def _matched(odd: list[int], joins: Joins, *, free: int) -> list[tuple[int, int]]:
    """Return the pairs of nodes to join, of the greatest saving together; some stay free."""
    place = {node: index for index, node in enumerate(odd)}
    edges = [
        (index, place[other], round((joins.most_seconds - seconds) * _PER_SECOND))
        for index, node in enumerate(odd)
        for other, seconds in joins.from_node(node).items()
        if place.get(other, -1) > index
    ]
    if not edges:
        return []
    loose = range(len(odd), len(odd) + free)
    edges += [(index, end, _FREE) for index in range(len(odd)) for end in loose]
    graph: rustworkx.PyGraph[int, int] = rustworkx.PyGraph(multigraph=False)
    graph.add_nodes_from(range(len(odd) + free))
    graph.add_edges_from(edges)
    pairs = rustworkx.max_weight_matching(graph, weight_fn=int)
    return sorted((odd[min(pair)], odd[max(pair)]) for pair in pairs if max(pair) < len(odd))
