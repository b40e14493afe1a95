"""In which order sets may follow one another, where that decides what is joined.

Lines that another set still crosses are not joined at their ends, so the sets to be joined are
those that come last where they cross. No two of them may cross; the more lines they have
together, the more cuts they save.
"""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from stitchpath.model.line import LineKind
from stitchpath.route.graph import LineGraph
from stitchpath.route.sets import WILD, Sets

MOST_SETS = 8
"""Of more sets only the given order is taken: the choices double with each."""


def set_orders(graph: LineGraph, sets: Sets) -> Iterator[Sets]:
    """Yield sets numbered in every other order that differs in which of them come last.

    The given order itself is left out. For every choice of sets that do not cross each other,
    and to which no other could be added, there is one order in which they come last.

    Args:
        graph: The lines.
        sets: Which set each line belongs to.
    """
    count = int(sets.number.max()) + 1
    if not 1 < count <= MOST_SETS:
        return
    seen = {tuple(range(count))}
    for last in _apart(_crossings(graph, sets, count)):
        order = (*(number for number in range(count) if number not in last), *last)
        if order not in seen:
            seen.add(order)
            place = np.empty(count + 1, dtype=np.intp)
            place[list(order)] = np.arange(count)
            place[WILD] = WILD
            yield replace(sets, number=place[sets.number])


def _crossings(graph: LineGraph, sets: Sets, count: int) -> NDArray[np.bool_]:
    """Return whether quilting lines of two sets meet, shape (sets, sets)."""
    at_node = np.zeros((count, len(graph.places)), dtype=np.bool_)
    for line, nodes in enumerate(graph.nodes):
        if sets.number[line] != WILD and graph.lines[line].kind is LineKind.QUILTING:
            at_node[sets.number[line], nodes] = True
    meets = np.array([(at_node & own).any(axis=1) for own in at_node])
    np.fill_diagonal(meets, val=False)
    return meets


def _apart(meets: NDArray[np.bool_]) -> list[tuple[int, ...]]:
    """Return every choice of sets of which none meet and to which none can be added."""
    count = len(meets)
    choices = []
    for bits in range(1, 2**count):
        chosen = [number for number in range(count) if bits >> number & 1]
        met: NDArray[np.bool_] = np.logical_or.reduce(meets[chosen])
        if not met[chosen].any() and all(met[n] or n in chosen for n in range(count)):
            choices.append(tuple(chosen))
    return choices
