"""Needle points on straight stretches: equal stitches, found without searching.

Most of a quilt is straight lines, millions of stitches long. Everything that is asked of one
point at a time would be felt there, so a stretch's own figures are repeated for its points, and
so many at a time that they stay near the processor.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points

_AT_A_TIME = 1 << 15
"""Points, but for stretches that have more: six columns of them are 1.5 MB."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Straights:
    """Straight stretches of whole paths, in their order, one row each.

    Attributes:
        start: Where each begins, shape (n, 2), mm.
        step: The way from there to its end, shape (n, 2), mm.
        end: Where it ends, exactly.
        begin: The stitches that come before it, a fraction as yet, shape (n,).
        effort: Those that it takes, a fraction as yet, shape (n,).
        count: Those that it is given, shape (n,).
        opens: Whether it begins a path, so that its start gets a needle point, shape (n,).
    """

    start: Points
    step: Points
    end: Points
    begin: NDArray[np.float64]
    effort: NDArray[np.float64]
    count: NDArray[np.intp]
    opens: NDArray[np.bool_]


def straight_points(stretches: Straights) -> Points:
    """Return the needle points of all stretches, shape (sum of count and opens, 2), mm."""
    rows = stretches.count + stretches.opens
    ends = np.cumsum(rows)
    xy = np.empty((int(ends[-1]) if len(ends) else 0, 2))
    for part in _parts(ends):
        here = rows[part]
        first = int(ends[part.start] - here[0])
        nth = np.arange(first, int(ends[part.stop - 1]))
        nth -= np.repeat((ends - stretches.count)[part] - 1, here)
        share = nth.astype(np.float64) * np.repeat(1 / stretches.count[part], here)
        share *= np.repeat(stretches.effort[part], here)
        begin = np.repeat(stretches.begin[part], here)
        # to and fro, as where a bend is searched for: the same rounding puts the same points
        share += begin
        share -= begin
        share /= np.repeat(stretches.effort[part], here)
        for axis in (0, 1):
            along = share * np.repeat(stretches.step[part, axis], here)
            along += np.repeat(stretches.start[part, axis], here)
            xy[first : first + len(nth), axis] = along
    xy[ends - 1] = stretches.end
    return xy


def _parts(ends: NDArray[np.intp]) -> Iterator[slice]:
    """Yield ranges of stretches with about as many points as are taken at a time."""
    done, points = 0, 0
    while done < len(ends):
        stop = max(int(np.searchsorted(ends, points + _AT_A_TIME, side="right")), done + 1)
        yield slice(done, stop)
        done, points = stop, int(ends[stop - 1])
