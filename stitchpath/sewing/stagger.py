"""Repeated stretches: holes must not fall into the holes of an earlier pass."""

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import SAME_POINT_MM


def repeat_shifts(
    starts: Points, ends: Points, path_of: NDArray[np.intp]
) -> NDArray[np.float64]:
    """Return by what part of a stitch the holes of each stretch are shifted, 0 <= shift < 1.

    The first time a path sews a stretch, in either direction, the shift is 0; then a half, a
    quarter, three quarters: each time the middle of the widest room left (the van der Corput
    sequence in base 2, from memory). It is counted from the same end for both directions.

    Args:
        starts: Where each stretch begins, shape (n, 2), mm.
        ends: Where it ends, shape (n, 2), mm.
        path_of: Which path it belongs to, shape (n,).

    Example:
        >>> there, back = np.array([[0.0, 0.0]]), np.array([[9.0, 0.0]])
        >>> line = np.concatenate([there, back, there])
        >>> repeat_shifts(line, np.concatenate([back, there, back]), np.zeros(3, int)).tolist()
        [0.0, 0.5, 0.25]
    """
    first, last = (np.round(side / SAME_POINT_MM).astype(np.int64) for side in (starts, ends))
    backwards = (first[:, 0] > last[:, 0]) | (
        (first[:, 0] == last[:, 0]) & (first[:, 1] > last[:, 1])
    )
    low = np.where(backwards[:, None], last, first)
    high = np.where(backwards[:, None], first, last)
    keys = np.column_stack([path_of, low, high])
    order = np.lexsort(keys.T[::-1])
    is_new = np.concatenate([[True], np.any(np.diff(keys[order], axis=0) != 0, axis=1)])
    if is_new.all():
        return np.zeros(len(keys))
    group_start = np.maximum.accumulate(np.where(is_new, np.arange(len(keys)), 0))
    passes = np.empty(len(keys), dtype=np.intp)
    passes[order] = np.arange(len(keys)) - group_start
    shift = np.array([_van_der_corput(count) for count in range(passes.max() + 1)])[passes]
    return np.where(backwards & (shift > 0), 1 - shift, shift)


def _van_der_corput(index: int) -> float:
    value, weight = 0.0, 0.5
    while index:
        index, bit = divmod(index, 2)
        value += bit * weight
        weight /= 2
    return value
