"""Islands: what is sewn inside a loop that is closed already, with nowhere for slack to go.

Method: the lines part the plane into faces. Something is an island if every way from it to the
outside crosses a line sewn before it. Faces are joined over the lines between them, the last
sewn first, until all that are left apart are apart by lines sewn before (union-find). A stretch
that is sewn again counts from the first time on.
"""

from collections.abc import Sequence

import numpy as np

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
    sides, first = graph.faces.sides, np.full(len(graph.faces.sides), len(sewn))
    for number in reversed(range(len(sewn))):
        for leg in sewn[number]:
            first[graph.stretches(leg.line, *sorted((leg.start, leg.end)))] = number
    root = list(range(int(sides.max()) + 1))

    def find(face: int) -> int:
        while (above := root[face]) != face:
            root[face] = root[above]
            face = above
        return face

    islands = 0
    order = np.argsort(-first, kind="stable")
    for group in np.split(sides[order], np.flatnonzero(np.diff(first[order])) + 1):
        pairs = group.tolist()
        for one, other in pairs:
            low, high = find(one), find(other)
            if low < high:  # face 0 is the outside, so it stays the root of what is open
                root[high] = low
            else:
                root[low] = high
        islands += any(find(one) for one, _ in pairs)
    return islands
