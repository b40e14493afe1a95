"""Which ends of walks are near one another, and the order of plain nearest neighbour.

Walks are codes, see `away`. Of codes that are as near, the smallest comes first.
"""

from math import ceil, sqrt

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import SAME_POINT_MM

_NEAR = 8
"""How many are tried after each walk."""
_GROUP = 2
"""So many times the points that are wanted make up a group."""


def find_near(ends: NDArray[np.float64], start: Points) -> list[list[int]]:
    """Return for each code those that are near after it, nearest first.

    Args:
        ends: Where each walk begins and ends, shape (n, 2, 2), mm.
        start: Where the needle is, shape (2,).

    Returns:
        For each code of a walk, then for the start, up to so many of the nearest codes. A walk
        itself is not near after it.

    Cost: O(n log n), unless very many ends lie on one another.
    """
    enters = ends.reshape(-1, 2)
    turned = np.arange(len(enters)) ^ 1
    wanted = min(_NEAR + 2, len(enters))
    last = np.sqrt(np.partition(_squares(enters - start), wanted - 1)[wanted - 1])
    reach = np.append(_reach(enters, wanted)[turned], last)
    found = _nearest(enters, np.vstack([enters[turned], start]), reach, wanted)
    return [
        [code for code in row if code // 2 != own // 2][:_NEAR]
        for own, row in enumerate(found.tolist())
    ]


def nearest_first(ends: NDArray[np.float64], start: Points, near: list[list[int]]) -> list[int]:
    """Return codes in the order of plain nearest neighbour.

    Args:
        ends: Where each walk begins and ends, shape (n, 2, 2), mm.
        start: Where the needle is, shape (2,).
        near: What `find_near` returns for them.

    Cost: O(n), and O(n) more each time that all that is near is sewn.
    """
    enters = ends.reshape(-1, 2)
    left = np.ones(len(enters), dtype=np.bool_)
    order: list[int] = []
    code, needle = len(enters), start
    while len(order) < len(ends):
        found = next((other for other in near[code] if left[other]), None)
        if found is None:
            codes = np.flatnonzero(left)
            found = int(codes[np.argmin(_squares(enters[codes] - needle))])
        code = found
        order.append(code)
        needle = enters[code ^ 1]
        left[[code, code ^ 1]] = False
    return order


def _squares(ways: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the square of how long each way is, shape (..., 2)."""
    return ways[..., 0] ** 2 + ways[..., 1] ** 2


def _reach(points: Points, wanted: int) -> NDArray[np.float64]:
    """Return for each point a distance within which as many lie as are wanted, itself too.

    Points are cut into columns and those into groups; in its group each has as many near it.
    Packing as for trees of boxes, S. Leutenegger, M. Lopez and J. Edgington 1997, from memory.
    """
    size = min(_GROUP * wanted, len(points))
    column = size * ceil(sqrt(len(points) / size))
    across = np.argsort(points[:, 0], kind="stable")
    packed = across[np.lexsort((points[across, 1], np.arange(len(points)) // column))]
    first = np.minimum(np.arange(0, len(points), size), len(points) - size)
    groups = packed[first[:, None] + np.arange(size)]
    own = points[groups]
    between = _squares(own[:, :, None] - own[:, None])
    reach = np.empty(len(points))
    reach[groups] = np.partition(between, wanted - 1, axis=2)[..., wanted - 1]
    return np.sqrt(reach)


def _nearest(
    points: Points, places: Points, reach: NDArray[np.float64], wanted: int
) -> NDArray[np.intp]:
    """Return the points nearest to each place, nearest first, shape (places, wanted).

    Args:
        points: Shape (n, 2), mm.
        places: Shape (k, 2), mm.
        reach: A distance from each place within which as many lie as are wanted, mm.
        wanted: At most n.
    """
    half = reach[:, None] + SAME_POINT_MM
    boxes = shapely.box(*(places - half).T, *(places + half).T)
    place, found = shapely.STRtree(np.asarray(shapely.points(points))).query(boxes)
    order = np.lexsort((found, _squares(points[found] - places[place]), place))
    ends = np.cumsum(np.bincount(place, minlength=len(places)))
    first = np.append(0, ends[:-1])
    nearest: NDArray[np.intp] = found[order][first[:, None] + np.arange(wanted)]
    return nearest
