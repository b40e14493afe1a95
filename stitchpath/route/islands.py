"""Islands: what is sewn inside a loop that is closed already, with nowhere for slack to go.

Method: the lines part the plane into faces. Something is an island if every way from it to the
outside crosses a line sewn before it. Faces are joined over the lines between them, the last
sewn first, until all that are left apart are apart by lines sewn before (union-find). A stretch
that is sewn again counts from the first time on.
"""

from collections.abc import Iterable, Sequence
from itertools import chain, islice

import numpy as np

from stitchpath.geometry.points import parts_of
from stitchpath.route.graph import LineGraph
from stitchpath.route.legs import Leg


def count_islands(graph: LineGraph, sewn: Sequence[Sequence[Leg]]) -> int:
    """Return how many have a stretch inside a loop that those before them closed.

    Args:
        graph: The lines.
        sewn: Parts of the lines in the order of sewing, those together that cannot close one
            another in; all of every line is in one of them.

    Cost: O(n log n) for n stretches.
    """
    sides, first = graph.sides, np.full(len(graph.sides), len(sewn))
    parts = [
        (number, leg.line, leg.start, leg.end)
        for number, legs in enumerate(sewn)
        for leg in legs
    ]
    number, line = np.array([part[:2] for part in parts]).T
    ends = np.array([part[2:] for part in parts])
    stretches, counts = graph.stretches(line, np.minimum(*ends.T), np.maximum(*ends.T))
    np.minimum.at(first, stretches, np.repeat(number, counts))
    root = list(range(int(sides.max()) + 1))
    order = np.argsort(-first, kind="stable")
    groups = np.flatnonzero(np.diff(first[order], append=-1)) + 1
    pairs = chain.from_iterable(sides[order[part]].tolist() for part in parts_of(len(order)))
    sizes = np.diff(groups, prepend=0).tolist()
    return sum(_joins_closed(root, islice(pairs, size)) for size in sizes)


def _joins_closed(root: list[int], pairs: Iterable[tuple[int, int]]) -> bool:
    """Join faces over the stretches between them; return whether any are closed in still.

    Args:
        root: For each face one that it is open to, the outside (0) if it is open to that.
        pairs: The faces on both sides of each stretch; all are taken.
    """
    closed = []
    for one, other in pairs:
        low, high = _find(root, one), _find(root, other)
        if high < low:
            low, high = high, low
        root[high] = low  # the outside is the lowest, so it stays the root of what is open
        if low:
            closed.append(low)
    return any(_find(root, face) for face in closed)


def _find(root: list[int], face: int) -> int:
    """Return the root of a face, and make the way to it shorter."""
    while (above := root[face]) != face:
        root[face] = root[above]
        face = above
    return face
