"""Repeated stretches: holes must not fall into the holes of an earlier pass."""

from collections.abc import Callable

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.nodes import find_places
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import MEETING_MM, SAME_POINT_MM


def repeat_shifts(
    starts: Points,
    ends: Points,
    path_of: NDArray[np.intp],
    middles: Callable[[NDArray[np.intp]], Points],
) -> NDArray[np.float64]:
    """Return by what part of a stitch the holes of each stretch are shifted, 0 <= shift < 1.

    The first time a path sews a stretch, in either direction, the shift is 0; then a half, a
    quarter, three quarters: each time the middle of the widest room left (the van der Corput
    sequence in base 2, from memory). It is counted from the same end for both directions.
    Stretches with the same ends are one only where they have the same middle too.

    Args:
        starts: Where each stretch begins, shape (n, 2), mm.
        ends: Where it ends, shape (n, 2), mm.
        path_of: Which path it belongs to, shape (n,).
        middles: Returns where the middles of some stretches lie, shape (m, 2), mm; asked only
            about those that share both ends with another.

    Example:
        >>> there, back = np.array([[0.0, 0.0]]), np.array([[9.0, 0.0]])
        >>> starts = np.concatenate([there, back, there])
        >>> ends = np.concatenate([back, there, back])
        >>> middles = lambda which: (starts + ends)[which] / 2
        >>> repeat_shifts(starts, ends, np.zeros(3, int), middles).tolist()
        [0.0, 0.5, 0.25]
    """
    first, last = (np.round(side / SAME_POINT_MM).astype(np.int64) for side in (starts, ends))
    backwards = (first[:, 0] > last[:, 0]) | (
        (first[:, 0] == last[:, 0]) & (first[:, 1] > last[:, 1])
    )
    low = np.where(backwards[:, None], last, first)
    high = np.where(backwards[:, None], first, last)
    keys = np.column_stack([path_of, low, high])
    order, is_new = _in_groups(keys)
    if is_new.all():
        return np.zeros(len(keys))
    shared = np.sort(order[~is_new | ~np.append(is_new[1:], True)])
    middle = np.zeros(len(keys), dtype=np.intp)
    middle[shared], _ = find_places(middles(shared))
    order, is_new = _in_groups(np.column_stack([keys, middle]))
    group_start = np.maximum.accumulate(np.where(is_new, np.arange(len(keys)), 0))
    passes = np.empty(len(keys), dtype=np.intp)
    passes[order] = np.arange(len(keys)) - group_start
    shift = np.array([_van_der_corput(count) for count in range(passes.max() + 1)])[passes]
    return np.where(backwards & (shift > 0), 1 - shift, shift)


def _in_groups(keys: NDArray[np.int64]) -> tuple[NDArray[np.intp], NDArray[np.bool_]]:
    """Return an order in which equal rows follow one another, and where others begin in it."""
    order = np.lexsort(keys.T[::-1])
    is_new = np.concatenate([[True], np.any(np.diff(keys[order], axis=0) != 0, axis=1)])
    return order, is_new


def find_hosts(starts: Points, ends: Points, lengths: NDArray[np.float64]) -> NDArray[np.intp]:
    """Return for each straight stretch the longer straight one that it lies on, -1 for none.

    Of several the first counts. Stretches that are as long as each other are left to
    `repeat_shifts`, and bent ones have no host.

    Args:
        starts: Where each stretch begins, shape (n, 2), mm.
        ends: Where it ends, shape (n, 2), mm.
        lengths: How long each is along its path, shape (n,), mm.

    Cost: O(n log n) for stretches of which few lie on others.

    Example:
        >>> starts = np.array([[0.0, 0.0], [6.0, 0.0]])
        >>> ends = np.array([[9.0, 0.0], [2.0, 0.0]])
        >>> find_hosts(starts, ends, np.array([9.0, 4.0])).tolist()
        [-1, 0]
    """
    host = np.full(len(starts), -1)
    straight = np.flatnonzero(lengths - np.hypot(*(ends - starts).T) <= MEETING_MM)
    shapes = np.asarray(shapely.linestrings(np.stack([starts, ends], axis=1)[straight]))
    middles = shapely.points((starts + ends)[straight] / 2)
    own, other = shapely.STRtree(shapes).query(middles, "dwithin", MEETING_MM)
    longer = lengths[straight[own]] + MEETING_MM < lengths[straight[other]]
    own, other = own[longer], other[longer]
    covers = shapely.dwithin(shapes[other], shapely.points(starts[straight[own]]), MEETING_MM)
    covers &= shapely.dwithin(shapes[other], shapely.points(ends[straight[own]]), MEETING_MM)
    row, first = np.unique(own[covers], return_index=True)
    host[straight[row]] = straight[other[covers][first]]
    return host


def phase_beside(
    starts: Points, host_starts: Points, host_ends: Points, pitch_mm: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return where the middles between a host's holes lie, as parts of a stitch from a start.

    Args:
        starts: Where stretches begin, shape (n, 2), on their hosts.
        host_starts: Where each's host begins, shape (n, 2), as seen in the stretch's direction.
        host_ends: Where that ends, shape (n, 2).
        pitch_mm: The host's stitch, shape (n,).

    Returns:
        The first middle after each start, 0 <= phase < 1, shape (n,).
    """
    ahead = host_ends - host_starts
    along = ((starts - host_starts) * ahead).sum(axis=1) / np.hypot(*ahead.T)
    return np.asarray((0.5 - along / pitch_mm) % 1.0)


def _van_der_corput(index: int) -> float:
    value, weight = 0.0, 0.5
    while index:
        index, bit = divmod(index, 2)
        value += bit * weight
        weight /= 2
    return value
