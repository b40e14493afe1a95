"""Many polylines in two columns, because a quilt has a lot of them."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Self

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, frozen_points
from stitchpath.geometry.tolerance import SHARP_TURN_DEG


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Polylines:
    """Points of many polylines one after the other.

    Attributes:
        points: Shape (n, 2), mm.
        starts: The rows at which a polyline begins, ascending, the first 0; empty for none.
    """

    points: Points
    starts: NDArray[np.intp]

    def __post_init__(self) -> None:
        """Keep read-only copies."""
        object.__setattr__(self, "points", frozen_points(self.points))
        starts = np.array(self.starts, dtype=np.intp)
        starts.setflags(write=False)
        object.__setattr__(self, "starts", starts)

    @classmethod
    def of(cls, parts: Iterable[Points]) -> Self:
        """Return the given polylines as one value; parts without points are left out."""
        kept = [part for part in parts if len(part)]
        sizes = np.array([0, *(len(part) for part in kept)], dtype=np.intp)
        points = np.concatenate(kept) if kept else np.empty((0, 2))
        return cls(points=points, starts=np.cumsum(sizes)[:-1])

    def __iter__(self) -> Iterator[Points]:
        """Go through the polylines."""
        yield from np.split(self.points, self.starts[1:]) if len(self.starts) else ()

    def __len__(self) -> int:
        """Count the polylines."""
        return len(self.starts)

    @property
    def length(self) -> float:
        """All of them together, mm."""
        steps = np.hypot(*np.diff(self.points, axis=0).T)
        steps[self.starts[1:] - 1] = 0.0
        return float(steps.sum())

    def placed(self, place: Callable[[Points], Points]) -> Self:
        """Return the same polylines with their points moved."""
        return type(self)(points=place(self.points), starts=self.starts)


def joined(parts: Iterable[Polylines]) -> Polylines:
    """Return all polylines of all parts, in order."""
    return Polylines.of(line for part in parts for line in part)


def simplified(lines: Polylines, *, tolerance_mm: float) -> Polylines:
    """Return polylines with fewer points, nowhere farther off than the tolerance.

    Polylines of a single point, which have no length to draw, are left out.

    Source: Douglas and Peucker's line reduction as shapely has it.
    """
    return _from_shapely(shapely.simplify(_to_shapely(lines), tolerance_mm))


def clipped(lines: Polylines, box: tuple[float, float, float, float]) -> Polylines:
    """Return what of the polylines lies in a box (x0, y0, x1, y1)."""
    return _from_shapely(shapely.clip_by_rect(_to_shapely(lines), *box))


def split_at_corners(lines: Polylines) -> Polylines:
    """Return the stretches between sharp turns; neighbours in a line do not coincide."""
    return Polylines.of(part for line in lines for part in _stretches(line))


def _stretches(line: Points) -> list[Points]:
    steps = np.diff(line, axis=0)
    heading = np.degrees(np.arctan2(steps[:, 1], steps[:, 0]))
    turn = np.abs((np.diff(heading) + 180) % 360 - 180)
    corners = np.flatnonzero(turn > SHARP_TURN_DEG) + 1
    ends = [0, *corners.tolist(), len(line) - 1]
    return [line[a : b + 1] for a, b in pairwise(ends)]


def _to_shapely(lines: Polylines) -> NDArray[np.object_]:
    """Return a line string for each polyline of two points and more."""
    sizes = np.diff(np.append(lines.starts, len(lines.points)))
    index = np.repeat(np.arange(len(sizes)), sizes)
    long = np.repeat(sizes > 1, sizes)
    _, order = np.unique(index[long], return_inverse=True)
    shapes: NDArray[np.object_] = np.empty(int(np.count_nonzero(sizes > 1)), dtype=object)
    shapely.linestrings(lines.points[long], indices=order, out=shapes)
    return shapes


def _from_shapely(shapes: NDArray[np.object_]) -> Polylines:
    parts = shapely.get_parts(shapes)
    points, index = shapely.get_coordinates(parts, return_index=True)
    first = np.flatnonzero(np.diff(index, prepend=-1))
    return Polylines(points=points, starts=first)
