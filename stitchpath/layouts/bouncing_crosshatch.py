"""Bouncing crosshatch: slanting lines that turn back at every edge, all in one thread.

Construction: the bounding rectangle is divided into m by n cells; a line leaves the middle of
a cell's side on the edge, crosses cells from side to side and is thrown back wherever it comes
to an edge. The lines are exactly gcd(m, n) closed loops, so m and n are chosen without a
common factor: one loop holds the whole piece. In half cells, x and y of a loop are two
triangle waves, of periods 4 m and 4 n, so it closes after 4 lcm(m, n) and turns only at the
edges.

Cells are as nearly square (slopes of 45 degrees) and their lines as nearly `spacing` apart as
counts without a common factor allow; on a square, m and n differ by one. The rectangle is
always filled exactly. On an area that is not an upright rectangle the loop is clipped to
pieces. Source: Lj. Radovic, "Mirror curves", paperzz.com: rays from the middles of edges of a
grid RG[a, b] make GCD(a, b) curves; the waves are elementary.
"""

from itertools import product
from math import gcd, lcm, log, sqrt
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.layouts._layout import Ground, Layout, Strand, evenly
from stitchpath.model.quilt import Quilting

_NEARBY: Final = 3
"""Counts this far from the wanted ones are tried, 7 by 7 pairs. Below 10,000 cells one of
these is always without a common factor: 2, 3, 5 and 7 spoil at most 16, 9, 4 and 1 of the 49,
and at most 17 larger primes divide any seven such numbers, to spoil one pair each."""


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the one loop, from the middle of the upper left cell's upper side."""
    left, top, right, bottom = ground.region.bounds
    m, n = choose_counts(right - left, bottom - top, spec.spacing)
    shares = (loop / (m, n) for loop in bouncing_loops(m, n))
    return tuple(
        Strand(points=(1 - share) * (left, top) + share * (right, bottom)) for share in shares
    )


def choose_counts(width_mm: float, height_mm: float, spacing_mm: float) -> tuple[int, int]:
    """Return how many cells lie across and down, without a common factor.

    Lines of square cells of side c are c / sqrt(2) apart.
    """
    side = spacing_mm * sqrt(2)

    def unlikeness(counts: tuple[int, int]) -> float:
        wide, high = log(width_mm / counts[0] / side), log(height_mm / counts[1] / side)
        return max(abs(wide), abs(high)) + abs(wide - high)

    tried = product(_near(width_mm / side), _near(height_mm / side))
    return min((counts for counts in tried if gcd(*counts) == 1), key=unlikeness)


def _near(wanted: float) -> range:
    middle = max(1, round(wanted))
    return range(max(1, middle - _NEARBY), middle + _NEARBY + 1)


def bouncing_loops(m: int, n: int) -> tuple[Points, ...]:
    """Return the closed loops of an m by n grid, each from its start on the upper edge.

    Args:
        m: Cells across, > 0.
        n: Cells down, > 0.

    Returns:
        gcd(m, n) closed polylines in cells, shape (2 (m + n) / gcd(m, n) + 1, 2).

    Example:
        >>> [len(loop) for loop in bouncing_loops(3, 2)], len(bouncing_loops(6, 4))
        ([11], 2)
    """
    return tuple(_loop(m, n, 2 * index + 1) for index in range(gcd(m, n)))


def _loop(m: int, n: int, start: int) -> Points:
    """Return the loop that leaves the upper edge, `start` half cells from the left."""
    round_trip = 4 * lcm(m, n)
    at_sides = np.arange(2 * m - start, round_trip, 2 * m)
    at_ends = np.arange(0, round_trip + 1, 2 * n)
    time = np.sort(np.concatenate([at_sides, at_ends]))
    return np.column_stack([_folded(time + start, 2 * m), _folded(time, 2 * n)]) / 2


def _folded(distance: NDArray[np.int64], side: int) -> NDArray[np.int64]:
    """Return where something is that has gone a distance to and fro between 0 and a side."""
    return np.asarray(side - np.abs(distance % (2 * side) - side))


LAYOUT: Final = Layout(
    summary="slanting lines that bounce off every edge, all one thread",
    make=make,
    keys={"spacing": "75 mm, as nearly as one thread allows"},
    repeat=lambda _: (0.0, 0.0),
    density=evenly(2.1),
    is_straight=True,
)
