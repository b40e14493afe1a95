"""Where points lie crowded: how many share a small disc.

Method: points are counted on the grid of stitch files, so a disc holds a bounded number of
places however many points there are. A coarse grid finds the few places that can be crowded: a
disc lies within two cells by two. There the disc is counted, row by row.
"""

from dataclasses import dataclass
from math import isqrt

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, parts_of
from stitchpath.geometry.tolerance import GRID_MM

_ROW = 1 << 31
"""Keys of places in neighbouring rows differ by so much: more than 100 km of columns."""
_MOST_BUCKETS = 24
"""As a power of two: 16 million, 64 MB."""
_ENOUGH = 62
"""Four counts of one more than that are the most that a byte holds."""


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

    Cost: O(n log n), and for each place that may be crowded two look-ups for every row of the
    disc. Not promised: a disc that is not centred on a point can hold more.

    Example:
        >>> row = np.array([[0.0, 0.0], [0.4, 0.0], [0.8, 0.0], [5.0, 0.0]])
        >>> found = crowded_places(row, disc_mm=1.0, most=2)
        >>> found.xy.tolist(), found.counts.tolist()
        ([[0.4, 0.0]], [3])
    """
    may_be = _may_be_crowded(points, round(disc_mm / GRID_MM), most)
    near = np.rint(points[may_be] / GRID_MM)
    among = places_of(near * GRID_MM)
    counts = disc_counts(among, among, disc_mm=disc_mm)
    crowded = counts > most
    return Places(keys=among.keys[crowded], counts=counts[crowded])


def disc_counts(centres: Places, among: Places, *, disc_mm: float) -> NDArray[np.intp]:
    """Return how many points lie in a disc round each of some places, shape (n,)."""
    found = np.zeros(len(centres.keys), dtype=np.intp)
    before = np.append(0, np.cumsum(among.counts))
    reach = int(disc_mm / 2 / GRID_MM + GRID_MM)
    for row in range(-reach, reach + 1):
        middle, half = centres.keys + row * _ROW, isqrt(reach**2 - row**2)
        first = np.searchsorted(among.keys, middle - half)
        found += before[np.searchsorted(among.keys, middle + half, side="right")]
        found -= before[first]
    return found


def _may_be_crowded(points: Points, cell: int, most: int) -> NDArray[np.bool_]:
    """Return which points may share two by two cells of a coarse grid with `most` others.

    Cells are counted in buckets, several of which can fall together, and up to what a byte
    holds: that costs time, never a crowded point.
    """
    if not len(points):
        return np.zeros(0, dtype=np.bool_)
    mask = (1 << min((8 * len(points)).bit_length(), _MOST_BUCKETS)) - 1
    width = (
        int(np.ptp(points[:, 0]) / GRID_MM) // cell + 2 | 1
    )  # odd: rows do not fall together
    counts = np.zeros(mask + 1, dtype=np.uint32)
    for part in parts_of(len(points)):
        np.add.at(counts, _buckets(points[part], cell, width, mask), np.uint32(1))
    few = min(most, _ENOUGH)
    together = np.minimum(counts, few + 1).astype(np.uint8)
    for step in (1, width):
        together += np.roll(together, -step)
    is_full = together > few
    for step in (1, width):
        is_full |= np.roll(is_full, step)
    may = np.empty(len(points), dtype=np.bool_)
    for part in parts_of(len(points)):
        may[part] = is_full[_buckets(points[part], cell, width, mask)]
    return may


def _buckets(points: Points, cell: int, width: int, mask: int) -> NDArray[np.int64]:
    """Return the bucket of each point's cell; the cell below has that `width` further on."""
    columns, rows = np.rint(points / GRID_MM).astype(np.int64).T // cell
    return np.asarray((rows * width + columns) & mask)


def _keys(units: Points) -> NDArray[np.int64]:
    whole = units.astype(np.int64)
    return np.asarray(whole[:, 1] * _ROW + whole[:, 0])
