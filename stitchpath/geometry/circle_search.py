"""The largest circle in some faces that no line reaches into.

Method: squares that cover the faces are parted in four, again and again, but for those where no
circle can be larger than the best found by more than the tolerance (branch and bound, common
practice). How far the nearest line is changes by no more than the way one goes. So a circle
with its centre in a square is larger than that round the square's middle by half of the
diagonal at the most.

Between lines side by side that alone would part a whole strip down to the tolerance. There the
nearest places p and q on both sides say more: from any place x, a line is no farther than p and
q are. So the square of its distance is no more than any mean of |x - p|^2 and |x - q|^2. With
the weights for which p and q have their mean in m, which lies between them, that mean is
|x - m|^2 + |m - p| |m - q|. If m is the square's middle, it grows with the square of the way.
"""

from dataclasses import dataclass
from typing import Self

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, lengths_of

_SOME = 16
"""So many squares' middles are moved halfway between two lines, each time all are parted."""
_AT_ONCE = 65_536
"""Places whose nearest line is looked for together; each is an object meanwhile."""

_Found = tuple[Points, float]
"""A circle's centre and radius, mm."""


def widest_circle(
    faces: NDArray[np.object_],
    lines: NDArray[np.object_],
    *,
    least_mm: float,
    tolerance_mm: float,
) -> _Found | None:
    """Return the centre and radius of the largest circle in some faces that has no line inside.

    Args:
        faces: Polygons, shape (n,); n >= 1.
        lines: Linestrings; the borders of all faces among them.
        least_mm: A radius; only a larger circle is looked for.
        tolerance_mm: The true largest radius is at most this much larger, > 0.

    Returns:
        Shape (2,), mm, and mm, or None where no circle is larger than the least by more than
        the tolerance (one that is larger by less may be found).

    Cost: O(k log segments) for the k squares; k is about the length of the strips where the
    largest circles fit over the root of radius times tolerance.
    """
    shapely.prepare(faces)
    walls = _Walls.of(lines)
    squares = _Squares.round(faces)
    best: _Found | None = None
    while len(squares.middle):
        radius = best[1] if best else least_mm
        found, squares = _narrowed(faces, walls, squares, radius, tolerance_mm)
        best = found or best
        squares = squares.parted()
    return best


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Walls:
    """Straight pieces of lines, shape (n, 2, 2), and a tree to find the nearest."""

    ends: NDArray[np.float64]
    tree: shapely.STRtree

    @classmethod
    def of(cls, lines: NDArray[np.object_]) -> Self:
        """Return the pieces of some lines."""
        places, line = shapely.get_coordinates(lines, return_index=True)
        ends = np.stack([places[:-1], places[1:]], axis=1)
        ends = ends[(line[:-1] == line[1:]) & (ends[:, 0] != ends[:, 1]).any(axis=1)]
        return cls(ends=ends, tree=shapely.STRtree(np.asarray(shapely.linestrings(ends))))

    def nearest(self, places: Points) -> Points:
        """Return for each place the nearest place on any line."""
        return np.concatenate(
            [
                self._nearest(places[first : first + _AT_ONCE])
                for first in range(0, len(places), _AT_ONCE)
            ]
        )

    def _nearest(self, places: Points) -> Points:
        _, piece = self.tree.query_nearest(shapely.points(places), all_matches=False)
        return _nearest_on(places, *self.ends[piece].swapaxes(0, 1))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Squares:
    """Squares along the axes: their middles, half of their sides, and whose face they cover."""

    middle: Points
    half: NDArray[np.float64]
    face: NDArray[np.intp]

    @classmethod
    def round(cls, faces: NDArray[np.object_]) -> Self:
        """Return a square round each face."""
        low, high = shapely.bounds(faces).reshape(-1, 2, 2).swapaxes(0, 1)
        half = (high - low).max(axis=1) / 2
        return cls(middle=(low + high) / 2, half=half, face=np.arange(len(faces)))

    def kept(self, which: NDArray[np.bool_]) -> Self:
        """Return some of the squares."""
        cls = type(self)
        return cls(middle=self.middle[which], half=self.half[which], face=self.face[which])

    def parted(self) -> Self:
        """Return the quarters of all squares."""
        half = np.repeat(self.half / 2, 4)
        corners = np.array([[-1, -1], [-1, 1], [1, -1], [1, 1]])
        middle = self.middle[:, None] + corners * half.reshape(-1, 4, 1)
        return type(self)(middle=middle.reshape(-1, 2), half=half, face=np.repeat(self.face, 4))


def _narrowed(
    faces: NDArray[np.object_],
    walls: _Walls,
    squares: _Squares,
    least: float,
    tolerance: float,
) -> tuple[_Found | None, _Squares]:
    """Return the largest circle found that is larger than the least, and what squares are left.

    A middle outside its face counts as so far on the wrong side of the face's border.
    """
    near = walls.nearest(squares.middle)
    radius = lengths_of(squares.middle - near)
    within = shapely.contains_xy(faces[squares.face], *squares.middle.T)
    found = _largest(squares.middle, np.where(within, radius, -radius), least)
    best = found[1] if found else least
    reach = np.sqrt(2) * squares.half
    kept = best + tolerance < np.where(within, radius, -radius) + reach
    squares, near, radius, within, reach = (
        squares.kept(kept),
        near[kept],
        radius[kept],
        within[kept],
        reach[kept],
    )
    if not len(reach):
        return found, squares
    across = walls.nearest(2 * squares.middle - near)
    found = _between(walls, squares.middle[within], near[within], across[within], best) or found
    best = found[1] if found else least
    most = _most(squares.middle, near, across, reach)
    return found, squares.kept(~within | (best + tolerance < most))


def _largest(centres: Points, radii: NDArray[np.float64], least: float) -> _Found | None:
    """Return the largest of some circles if it is larger than the least."""
    if not len(radii) or radii.max() <= least:
        return None
    at = int(np.argmax(radii))
    return centres[at], float(radii[at])


def _between(
    walls: _Walls, middle: Points, near: Points, across: Points, least: float
) -> _Found | None:
    """Return the largest circle found by moving middles away from the nearest line.

    Each goes until the places on both sides are as far, those that promise most. A move by less
    than the radius stays in the circle, and so in the face.
    """
    way = middle - near
    one, other = lengths_of(way), lengths_of(middle - across)
    move = (other - one) / 2
    hope = np.where(move < one, (one + other) / 2, 0.0)
    best = np.argsort(-hope, kind="stable")[:_SOME]
    best = best[least < hope[best]]
    if not len(best):
        return None
    centres = middle[best] + way[best] * (move[best] / one[best])[:, None]
    return _largest(centres, lengths_of(centres - walls.nearest(centres)), least)


def _most(
    middle: Points, near: Points, across: Points, reach: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return a radius that no empty circle exceeds whose centre is within reach of a middle."""
    mean = _nearest_on(middle, near, across)
    apart = lengths_of(mean - near) * lengths_of(mean - across)
    return np.hypot(lengths_of(middle - mean) + reach, np.sqrt(apart))


def _nearest_on(places: Points, start: Points, end: Points) -> Points:
    """Return for each place the nearest one on its own straight line, which may be a point."""
    way = end - start
    square = (way**2).sum(axis=1)
    share = ((places - start) * way).sum(axis=1) / np.where(square > 0, square, 1.0)
    nearest: Points = start + np.clip(share, 0.0, 1.0)[:, None] * way
    return nearest
