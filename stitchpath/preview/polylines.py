"""Many polylines in two columns, because a quilt has a lot of them."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Self

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.points import (
    Points,
    extremes,
    frozen_points,
    parts_of,
    segment_lengths,
)
from stitchpath.geometry.tolerance import STRAIGHT


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
    def sizes(self) -> NDArray[np.intp]:
        """How many points each polyline has."""
        sizes = np.empty(len(self.starts), dtype=np.intp)
        sizes[:-1] = self.starts[1:] - self.starts[:-1]
        sizes[-1:] = len(self.points) - self.starts[-1:]
        return sizes

    @property
    def length(self) -> float:
        """All of them together, mm."""
        steps = segment_lengths(self.points)
        steps[self.starts[1:] - 1] = 0.0
        return float(steps.sum())

    def placed(self, place: Callable[[Points], Points]) -> Self:
        """Return the same polylines with their points moved."""
        return type(self)(points=place(self.points), starts=self.starts)

    def chosen(self, wanted: NDArray[np.bool_]) -> Self:
        """Return those polylines that are wanted, shape (len(self),)."""
        if wanted.all():
            return self
        sizes = self.sizes
        starts = np.cumsum(np.append(0, sizes[wanted]))[:-1]
        return type(self)(points=self.points[np.repeat(wanted, sizes)], starts=starts)

    def part(self, first: int, last: int) -> Self:
        """Return the polylines from one up to another, which is not among them."""
        ends = np.append(self.starts, len(self.points))
        row, end = ends[[first, last]].tolist()
        return type(self)(points=self.points[row:end], starts=self.starts[first:last] - row)


def joined(parts: Sequence[Polylines]) -> Polylines:
    """Return all polylines of all parts, in order; one part alone is returned itself."""
    if len(parts) == 1:
        return parts[0]
    before = np.cumsum([0, *(len(part.points) for part in parts)])
    starts = [part.starts + rows for part, rows in zip(parts, before, strict=False)]
    return Polylines(
        points=np.concatenate([np.empty((0, 2)), *(part.points for part in parts)]),
        starts=np.concatenate([np.empty(0, dtype=np.intp), *starts]),
    )


def simplified(lines: Polylines, *, tolerance_mm: float, apart: bool = True) -> Polylines:
    """Return polylines with fewer points, nowhere farther off than the tolerance.

    Polylines of a single point, which have no length to draw, are left out.

    Args:
        lines: What to simplify.
        tolerance_mm: How far off a line may come to lie.
        apart: A line never comes to cross itself; without that it takes a tenth of the time.

    Source: Douglas and Peucker's line reduction as shapely has it.
    """
    straight = _straightened(lines)
    straight = straight.chosen(straight.sizes > 1)
    if 2 * len(straight) == len(straight.points):  # nothing is left out of any
        return straight
    shapes = _to_shapely(straight)
    return _from_shapely(shapely.simplify(shapes, tolerance_mm, preserve_topology=apart))


def _straightened(lines: Polylines) -> Polylines:
    """Return polylines without the points that they go straight on at; that is quick."""
    keep = np.ones(len(lines.points), dtype=np.bool_)
    for part in parts_of(len(lines.points) - 2):
        x, y = np.diff(lines.points[part.start : part.stop + 2], axis=0).T
        ahead = x[:-1] * x[1:]
        ahead += y[:-1] * y[1:]
        off = np.abs(x[:-1] * y[1:] - y[:-1] * x[1:])
        keep[part.start + 1 : part.stop + 1] = (ahead <= 0) | (off > STRAIGHT * ahead)
    keep[lines.starts] = True
    keep[lines.starts[1:] - 1] = True
    rows = np.flatnonzero(keep)
    return Polylines(points=lines.points[rows], starts=np.searchsorted(rows, lines.starts))


def bounds_of(*parts: Points) -> tuple[float, float, float, float]:
    """Return the bounds (x0, y0, x1, y1) of all points of all parts; one at least has some."""
    some = [part for part in parts if len(part)]
    low, high = extremes(np.array([edge for part in some for edge in extremes(part)]))
    (x0, y0), (x1, y1) = low.tolist(), high.tolist()
    return x0, y0, x1, y1


def clipped_all(
    parts: Sequence[Polylines], box: tuple[float, float, float, float]
) -> list[Polylines]:
    """Return what of each of several sets of polylines lies in a box (x0, y0, x1, y1).

    Cost: little more than for one set, where they are small.
    """
    lines = joined(parts)
    wanted = (lines.sizes > 1) & _reach(lines, np.array(box))
    owner = np.repeat(np.arange(len(parts)), [len(part) for part in parts])[wanted]
    clips = shapely.clip_by_rect(_to_shapely(lines.chosen(wanted)), *box)
    return _parted(clips, np.searchsorted(owner, np.arange(len(parts) + 1)))


def clipped_each(
    lines: Polylines, boxes: Sequence[tuple[float, float, float, float]]
) -> list[Polylines]:
    """Return what of the polylines lies in each of several boxes, one at least.

    Cost: little more than for one box, where many lines lie in few of them.
    """
    long = lines.chosen(lines.sizes > 1)
    shapes, reaches = _to_shapely(long), _reach(long, np.array(boxes)[:, None])
    seen = [
        shapely.clip_by_rect(shapes[near], *box)
        for near, box in zip(reaches, boxes, strict=True)
    ]
    return _parted(np.concatenate(seen), np.cumsum([0, *map(len, seen)]))


def _parted(clips: NDArray[np.object_], bounds: NDArray[np.intp]) -> list[Polylines]:
    """Return shapes as sets of polylines, each the shapes from one bound to the next."""
    parts, owner = shapely.get_parts(clips, return_index=True)
    points, part = shapely.get_coordinates(parts, return_index=True)
    starts = np.flatnonzero(np.diff(part, prepend=-1))
    rows = np.searchsorted(part, np.searchsorted(owner, bounds))
    places = np.searchsorted(starts, rows)
    return [
        Polylines(points=points[row:end], starts=starts[first:last] - row)
        for (row, end), (first, last) in zip(pairwise(rows), pairwise(places), strict=True)
    ]


def _reach(lines: Polylines, boxes: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Return which polylines may lie in which boxes, shape (..., 4), by their bounds."""
    if not len(lines):
        return np.empty((*boxes.shape[:-2], 0), dtype=np.bool_)
    low = np.minimum.reduceat(lines.points, lines.starts)
    high = np.maximum.reduceat(lines.points, lines.starts)
    return np.asarray(((low <= boxes[..., 2:]) & (boxes[..., :2] <= high)).all(axis=-1))


def _to_shapely(lines: Polylines) -> NDArray[np.object_]:
    """Return a line string for each polyline of two points and more."""
    long = lines.chosen(lines.sizes > 1)
    index = np.repeat(np.arange(len(long)), long.sizes)
    shapes: NDArray[np.object_] = np.empty(len(long), dtype=object)
    shapely.linestrings(long.points, indices=index, out=shapes)
    return shapes


def _from_shapely(shapes: NDArray[np.object_]) -> Polylines:
    parts = shapely.get_parts(shapes)
    points, index = shapely.get_coordinates(parts, return_index=True)
    first = np.flatnonzero(np.diff(index, prepend=-1))
    return Polylines(points=points, starts=first)
