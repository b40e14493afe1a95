"""Lines divided over the places of a cover: which place sews which stretch of which line.

A line goes over as few joins as can be. What must stay whole, and each motif that a field
holds, is given to one place. A join may lie wherever both fields reach half the overlap past
it.
"""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.boxes import Boxes, bounds_of, stretches_in
from stitchpath.geometry.paths import cut_path, distances_along, points_at
from stitchpath.geometry.points import Points, path_length
from stitchpath.geometry.tolerance import NEARNESS, SAME_POINT_MM
from stitchpath.hoopings.places import Cover, boxes_of
from stitchpath.model.line import Line, run_of

_PAIRS_AT_ONCE = 4_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """Where on a line a join may lie, mm along it: one range, or more beside whole parts."""

    ranges: tuple[tuple[float, float], ...]

    @property
    def low(self) -> float:
        """Where it begins."""
        return self.ranges[0][0]

    @property
    def high(self) -> float:
        """Where it ends."""
        return self.ranges[-1][1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """The places that sew a line, in its direction, and a window between each two of them."""

    places: tuple[int, ...]
    windows: tuple[Window, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Link:
    """A stretch of a line that a place reaches."""

    place: int
    start: float
    end: float
    away: int


_Route: TypeAlias = tuple[tuple[int, int], tuple[int, ...], tuple[Window, ...]]
"""Cost (joins, nearness), links and windows of the best way to a link."""


def divide_lines(
    lines: tuple[Line, ...], cover: Cover, *, overlap_mm: float
) -> list[Chain] | None:
    """Return which places sew each line, or None if the cover does not reach all of it.

    Args:
        lines: A stage's lines; at least one.
        cover: Where fields lie.
        overlap_mm: What both sides of a join sew.

    Cost: O(lines x places + segments), in whole arrays; then O(1) for each stretch.
    """
    boxes = boxes_of(cover)
    holder = _holders(lines, boxes)
    split = np.flatnonzero(holder < 0)
    chains: list[Chain | None] = [Chain(places=(place,)) for place in holder.tolist()]
    for line, links in _links([lines[line] for line in split.tolist()], boxes).items():
        number = int(split[line])
        chains[number] = _chain(lines[number], links, overlap_mm / 2)
    done = [chain for chain in chains if chain is not None and chain.places[0] >= 0]
    return done if len(done) == len(lines) else None


def cut_line(line: Line, joins: list[float], *, overlap_mm: float) -> list[Line]:
    """Return the parts of a line between joins, longer by half the overlap at each of them.

    Args:
        line: What is cut.
        joins: Where, in mm along it, in order.
        overlap_mm: What both sides of a join sew.
    """
    if not joins:
        return [line]
    ends = [0.0, *joins, path_length(line.points)]
    bounds = np.column_stack([ends[:-1], ends[1:]])
    bounds[1:, 0] -= overlap_mm / 2
    bounds[:-1, 1] += overlap_mm / 2
    if line.file_run is not None:
        return list(_parts_of_file_run(line, joins, bounds))
    return [replace(line, points=points, whole=()) for points in cut_path(line.points, bounds)]


def _parts_of_file_run(
    line: Line, joins: list[float], bounds: NDArray[np.float64]
) -> Iterator[Line]:
    """Yield the parts of a line from a stitch file; each begins and ends on a needle point.

    A part reaches past its joins to the last needle point within the overlap. Where a join
    lies on none, as in a stitch longer than the reach of both fields, one is put there.
    """
    line = _with_needle_points(line, joins)
    along = distances_along(line.points)
    last = len(along) - 1
    firsts = np.searchsorted(along, bounds[:, 0] - SAME_POINT_MM, side="left")
    lasts = np.searchsorted(along, bounds[:, 1] + SAME_POINT_MM, side="right") - 1
    for first, end in zip(firsts.tolist(), lasts.tolist(), strict=True):
        start = min(max(first, 0), last - 1)
        yield line.between(start, max(end, start + 1))


def _with_needle_points(line: Line, joins: list[float]) -> Line:
    along, run = distances_along(line.points), run_of(line)
    places = [at for at in joins if np.abs(along - at).min() > SAME_POINT_MM]
    before = np.searchsorted(along, places)
    columns = replace(
        run,
        moved=np.insert(run.moved, before, run.moved[before]),
        paused=np.insert(run.paused, before, values=False),
    )
    points = np.insert(line.points, before, points_at(line.points, np.array(places)), axis=0)
    return replace(line, points=points, file_run=columns)


def _holders(lines: tuple[Line, ...], boxes: Boxes) -> NDArray[np.intp]:
    """Return the place that holds each line, or its whole motif; -1 for lines to be split."""
    bounds = bounds_of([line.points for line in lines])
    holder = _nearest_holding(bounds, boxes)
    motifs: dict[int, list[int]] = defaultdict(list)
    for number, line in enumerate(lines):
        if line.motif is not None:
            motifs[line.motif].append(number)
    if motifs:
        groups = [bounds[members] for members in motifs.values()]
        hulls = [(*group[:, :2].min(axis=0), *group[:, 2:].max(axis=0)) for group in groups]
        for members, place in zip(
            motifs.values(), _nearest_holding(np.array(hulls), boxes).tolist(), strict=True
        ):
            if place >= 0:
                holder[members] = place
    return holder


def _nearest_holding(bounds: Boxes, boxes: Boxes) -> NDArray[np.intp]:
    """Return for each bounds the box that holds it, the one with the nearest centre; or -1."""
    step = max(1, _PAIRS_AT_ONCE // len(boxes))
    found = [
        _held(bounds[first : first + step], boxes) for first in range(0, len(bounds), step)
    ]
    return np.concatenate(found)


def _held(bounds: Boxes, boxes: Boxes) -> NDArray[np.intp]:
    room = np.array([-1, -1, 1, 1]) * SAME_POINT_MM
    holds = np.all(
        (bounds[:, None] - boxes[None] - room) * np.array([1, 1, -1, -1]) >= 0, axis=2
    )
    away = np.where(holds, _away((bounds[:, None, :2] + bounds[:, None, 2:]) / 2, boxes), 2**40)
    return np.asarray(np.where(holds.any(axis=1), away.argmin(axis=1), -1))


def _away(places: Points, boxes: Boxes) -> NDArray[np.int64]:
    """Return how far places lie from boxes' centres, in steps of `NEARNESS` of their size."""
    centre, size = (boxes[:, :2] + boxes[:, 2:]) / 2, boxes[:, 2:] - boxes[:, :2]
    share = np.abs(places - centre) / size
    return np.asarray(np.rint(share.max(axis=-1) / NEARNESS), dtype=np.int64)


def _links(lines: list[Line], boxes: Boxes) -> dict[int, list[_Link]]:
    """Return for each line the stretches of it that places reach, in its direction."""
    if not lines:
        return {}
    found = stretches_in([line.points for line in lines], boxes)
    links: dict[int, list[_Link]] = {number: [] for number in range(len(lines))}
    first = np.searchsorted(found.line, np.arange(len(lines) + 1))
    for number, line in enumerate(lines):
        rows = slice(first[number], first[number + 1])
        middle = points_at(line.points, (found.start[rows] + found.end[rows]) / 2)
        away = _away(middle, boxes[found.box[rows]])
        links[number] = [
            _Link(place=place, start=start, end=end, away=far)
            for place, start, end, far in zip(
                found.box[rows].tolist(),
                found.start[rows].tolist(),
                found.end[rows].tolist(),
                away.tolist(),
                strict=True,
            )
        ]
    return links


def _chain(line: Line, links: list[_Link], half_mm: float) -> Chain | None:
    """Return the chain of fewest joins through a line's links, the nearest centres first."""
    length = path_length(line.points)
    wholes = _whole_ranges(line)
    best: list[_Route | None] = []
    ends: list[_Route] = []
    for at, link in enumerate(links):
        route: _Route | None = None
        if link.start <= SAME_POINT_MM:
            route = (0, link.away), (at,), ()
        else:
            route = _best_way(links, best, at, half_mm, wholes)
        best.append(route)
        if route is not None and link.end >= length - SAME_POINT_MM:
            ends.append(route)
    if not ends:
        return None
    _, chosen, windows = min(ends, key=lambda route: (route[0], route[1]))
    return Chain(places=tuple(links[at].place for at in chosen), windows=windows)


def _best_way(
    links: list[_Link],
    best: list[_Route | None],
    at: int,
    half_mm: float,
    wholes: list[tuple[float, float]],
) -> _Route | None:
    """Return the best way to a link from those that begin before it."""
    link, found = links[at], None
    for before in range(at):
        way = best[before]
        low, high = link.start + half_mm, links[before].end - half_mm
        if way is None or high < low - SAME_POINT_MM:
            continue
        (joins, away), chosen, windows = way
        cost = joins + 1, away + link.away
        if found is not None and found[0] <= cost:
            continue
        ranges = _outside(low, max(low, high), wholes)
        if ranges:
            found = cost, (*chosen, at), (*windows, Window(ranges=ranges))
    return found


def _whole_ranges(line: Line) -> list[tuple[float, float]]:
    if not line.whole:
        return []
    along = distances_along(line.points)
    return sorted((float(along[first]), float(along[last])) for first, last in line.whole)


def _outside(
    low: float, high: float, wholes: list[tuple[float, float]]
) -> tuple[tuple[float, float], ...]:
    """Return what of a range lies in no whole part; a join may lie on a whole part's end."""
    ranges = [(low, high)]
    for start, end in wholes:
        beside = [((one, min(other, start)), (max(one, end), other)) for one, other in ranges]
        ranges = [part for parts in beside for part in parts if part[0] <= part[1]]
    return tuple(ranges)
