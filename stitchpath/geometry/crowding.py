"""Where points lie crowded: how many share a small disc.

Method: points are counted on the grid of stitch files, so a disc holds a bounded number of
places however many points there are. Four coarse grids, shifted by half a cell, find the few
places that can be crowded: a disc lies within a cell, twice as wide, of one of them. There the
disc is counted, place by place.
"""

from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, parts_of
from stitchpath.geometry.tolerance import GRID_MM

_ROW = 1 << 31
"""Keys of places in neighbouring rows differ by so much: more than 100 km of columns."""
_MIX = 40_503
"""Odd and large, so that neighbouring cells come into different buckets."""
_MOST_BUCKETS = 24
"""As a power of two: 16 million, 128 MB."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Places:
    """Places on the grid of stitch files, each once, with how many points are there.

    Attributes:
        keys: Row times `_ROW` plus column, ascending, shape (n,), int64.
        counts: Points at each, shape (n,).
    """

    keys: NDArray[np.int64]
    counts: NDArray[np.intp]

    @property
    def xy(self) -> Points:
        """The places, shape (n, 2), mm."""
        rows = (self.keys + _ROW // 2) // _ROW
        return np.column_stack([self.keys - rows * _ROW, rows]) * GRID_MM


def places_of(points: Points) -> Places:
    """Return the places of points, shape (n, 2), mm, rounded to the grid; n may be 0."""
    keys, counts = np.unique(_keys(np.rint(points / GRID_MM)), return_counts=True)
    return Places(keys=keys, counts=counts)


def crowded_places(points: Points, *, disc_mm: float, most: int) -> Places:
    """Return the places whose disc holds more than `most` points, their own included.

    Args:
        points: Shape (n, 2), mm, within 100 km of the origin.
        disc_mm: Diameter of the disc, its edge included.
        most: So many may share it, >= 1.

    Returns:
        Each crowded place once; its count is that of the disc, not that of the place.

    Cost: O(n log n), and for each place that may be crowded as many look-ups as the disc has
    places. Not promised: a disc that is not centred on a point can hold more.

    Example:
        >>> row = np.array([[0.0, 0.0], [0.4, 0.0], [0.8, 0.0], [5.0, 0.0]])
        >>> found = crowded_places(row, disc_mm=1.0, most=2)
        >>> found.xy.tolist(), found.counts.tolist()
        ([[0.4, 0.0]], [3])
    """
    may_be = _may_be_crowded(points, 2 * round(disc_mm / GRID_MM), most)
    near = np.rint(points[may_be] / GRID_MM)
    among = places_of(near * GRID_MM)
    counts = disc_counts(among, among, disc_mm=disc_mm)
    crowded = counts > most
    return Places(keys=among.keys[crowded], counts=counts[crowded])


def disc_counts(centres: Places, among: Places, *, disc_mm: float) -> NDArray[np.intp]:
    """Return how many points lie in a disc round each of some places, shape (n,)."""
    found = np.zeros(len(centres.keys), dtype=np.intp)
    if not len(among.keys):
        return found
    reach = int(disc_mm / 2 / GRID_MM + GRID_MM)
    for column, row in product(range(-reach, reach + 1), repeat=2):
        if column**2 + row**2 <= reach**2:
            wanted = centres.keys + row * _ROW + column
            at = np.minimum(np.searchsorted(among.keys, wanted), len(among.keys) - 1)
            found += np.where(among.keys[at] == wanted, among.counts[at], 0)
    return found


def _may_be_crowded(points: Points, cell: int, most: int) -> NDArray[np.bool_]:
    """Return which points may share a cell of one of four coarse grids with `most` others.

    Cells are counted in buckets, several of which can fall together: that costs time, never a
    crowded point.
    """
    may = np.zeros(len(points), dtype=np.bool_)
    mask = (1 << min((8 * len(points)).bit_length(), _MOST_BUCKETS)) - 1
    buckets = np.empty(len(points), dtype=np.int32)
    for shift in product((0, cell // 2), repeat=2):
        for part in parts_of(len(points)):
            whole = np.rint(points[part] / GRID_MM).astype(np.int64)
            columns, rows = ((whole + shift) // cell).T
            buckets[part] = (rows * _MIX + columns) & mask
        is_full = np.bincount(buckets) > most
        may |= is_full[buckets]
    return may


def _keys(units: Points) -> NDArray[np.int64]:
    whole = units.astype(np.int64)
    return np.asarray(whole[:, 1] * _ROW + whole[:, 0])
