"""Circles packed into a region, each touching the one it was grown from.

Construction: a circle goes where the region is widest; round each circle, the next ones are put
where they touch it and one of its neighbours, as large as there is room for, until nothing
fits. Source: from memory, as pebbles are drawn by hand.
"""

from collections import defaultdict, deque
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import TOUCHING_SHARE
from stitchpath.layouts._layout import Region

SIZES: Final = np.array([1.0, 0.85, 0.7, 0.55])
"""Radii that are tried, largest first, as shares of the one drawn."""
UNEVEN: Final = 0.2
"""How much the drawn radius strays from half the spacing."""


@dataclass(slots=True, kw_only=True)
class Packing:
    """Circles in the order they were put, and a lookup of those nearby. It grows.

    Attributes:
        reach_mm: Diameter of the largest circle; the size of the lookup's cells.
        circles: x, y and radius of each, mm.
        parents: The circle that each was grown from; -1 for the first of a heap.
    """

    reach_mm: float
    circles: list[tuple[float, float, float]] = field(default_factory=list)
    parents: list[int] = field(default_factory=list)
    _cells: dict[tuple[int, int], list[int]] = field(default_factory=lambda: defaultdict(list))

    def put(self, circle: tuple[float, float, float], parent: int) -> int:
        """Add a circle; return its number."""
        self.circles.append(circle)
        self.parents.append(parent)
        number = len(self.circles) - 1
        self._cells[self._cell(circle[0], circle[1])].append(number)
        return number

    def near(self, x: float, y: float) -> NDArray[np.float64]:
        """Return the circles that could touch one that touches one at a place, shape (n, 3)."""
        column, row = self._cell(x, y)
        found = [
            number
            for dx in range(-2, 3)
            for dy in range(-2, 3)
            for number in self._cells.get((column + dx, row + dy), ())
        ]
        return np.array([self.circles[number] for number in found]).reshape(-1, 3)

    def _cell(self, x: float, y: float) -> tuple[int, int]:
        return int(x // self.reach_mm), int(y // self.reach_mm)


def pack_circles(region: Region, *, spacing_mm: float, rng: np.random.Generator) -> Packing:
    """Return circles of about a diameter that fill a region without overlapping.

    Args:
        region: Valid, not empty; circles lie inside it.
        spacing_mm: The mean diameter of those that have room, > 0.
        rng: Draws the sizes.

    Cost: O(circles), some tenths of a millisecond each.
    """
    packing = Packing(reach_mm=spacing_mm * (1 + UNEVEN))
    for part in shapely.get_parts(region):
        border = part.boundary
        shapely.prepare(part)
        shapely.prepare(border)
        for seed in _seeds(part, spacing_mm):
            radius = min(seed[2], spacing_mm / 2)
            if radius < spacing_mm / 2 * SIZES[-1] or _overlaps(packing, seed, radius):
                continue
            queue = deque([packing.put((seed[0], seed[1], radius), -1)])
            while queue:
                queue.extend(_grow(packing, queue.popleft(), part, border, spacing_mm, rng))
    return packing


def _seeds(part: shapely.Polygon, spacing_mm: float) -> Iterator[tuple[float, float, float]]:
    """Yield places to begin a heap, the widest first, and the room there."""
    circle = shapely.maximum_inscribed_circle(part)
    (x, y), *_ = shapely.get_coordinates(circle).tolist()
    yield x, y, float(circle.length)
    left, top, right, bottom = part.bounds
    grid = np.stack(
        np.meshgrid(np.arange(left, right, spacing_mm), np.arange(top, bottom, spacing_mm)), -1
    ).reshape(-1, 2)
    grid = grid[shapely.contains_xy(part, grid)]
    room = np.asarray(shapely.distance(part.boundary, np.asarray(shapely.points(grid))))
    for (x, y), radius in zip(grid.tolist(), room.tolist(), strict=True):
        yield x, y, radius


def _overlaps(packing: Packing, seed: tuple[float, float, float], radius: float) -> bool:
    near = packing.near(seed[0], seed[1])
    away = np.hypot(near[:, 0] - seed[0], near[:, 1] - seed[1])
    return bool((away < near[:, 2] + radius).any())


def _grow(
    packing: Packing,
    number: int,
    part: shapely.Polygon,
    border: shapely.Geometry,
    spacing_mm: float,
    rng: np.random.Generator,
) -> Iterator[int]:
    """Put circles round one until nothing fits; yield their numbers."""
    circle = np.array(packing.circles[number])
    room = float(shapely.distance(border, shapely.Point(circle[:2])))
    while True:
        drawn = spacing_mm / 2 * rng.uniform(1 - UNEVEN, 1 + UNEVEN)
        near = _in_the_way(circle, packing.near(circle[0], circle[1]), drawn)
        tried = _touching(circle, near, drawn * SIZES, rng.uniform(0, 2 * np.pi))
        away = np.hypot(*(tried[:, None, :2] - near[None, :, :2]).transpose(2, 0, 1))
        free = (away >= (near[None, :, 2] + tried[:, 2:]) * (1 - TOUCHING_SHARE)).all(axis=1)
        tried = tried[free]
        # one that cannot reach the border, wherever it touches, need not be measured
        inside = circle[2] + 2 * tried[:, 2] <= room
        doubtful = np.flatnonzero(~inside)
        places = np.asarray(shapely.points(tried[doubtful, :2]))
        inside[doubtful] = shapely.contains(part, places)
        inside[doubtful] &= shapely.distance(border, places) >= tried[doubtful, 2]
        if not inside.any():
            return
        chosen = tried[np.argmax(inside)].tolist()
        yield packing.put((chosen[0], chosen[1], chosen[2]), number)


def _in_the_way(circle: NDArray[np.float64], near: Points, radius: float) -> Points:
    """Return the other circles that one of a radius could meet while it touches a circle."""
    gap = np.hypot(near[:, 0] - circle[0], near[:, 1] - circle[1])
    return np.asarray(near[(gap > 0) & (gap < circle[2] + 2 * radius + near[:, 2])])


def _touching(
    circle: NDArray[np.float64], near: Points, radii: NDArray[np.float64], turn: float
) -> NDArray[np.float64]:
    """Return circles that touch one and a neighbour of it, shape (n, 3), largest first."""
    way = near[:, :2] - circle[:2]
    gap = np.hypot(way[:, 0], way[:, 1])
    reach, other = circle[2] + radii[:, None], near[:, 2] + radii[:, None]
    along = (gap**2 + reach**2 - other**2) / (2 * gap)
    square = reach**2 - along**2
    beside = np.sqrt(np.maximum(square, 0.0))
    unit = way / gap[:, None]
    foot = along[..., None] * unit
    across = beside[..., None] * unit[:, ::-1] * (-1, 1)
    alone = np.broadcast_to(reach[..., None] * [np.cos(turn), np.sin(turn)], (len(radii), 1, 2))
    centres = circle[:2] + np.concatenate([alone, foot + across, foot - across], axis=1)
    meets = np.concatenate([np.ones_like(reach, np.bool_), square >= 0, square >= 0], axis=1)
    size = np.broadcast_to(radii[:, None], meets.shape)
    return np.column_stack([centres[meets], size[meets]])
