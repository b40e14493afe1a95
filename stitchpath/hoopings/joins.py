"""Where on a line two hoopings meet: hidden on a crossing, else on a straight stretch.

The rule. A join lies on a crossing with another line, or where a line ends on it, if one is
within reach of both fields. If there are several, neighbouring lines take turns between those
nearer to one field and to the other. Without a crossing it lies where the line turns least
close by, staggered in the same way: a quarter and three quarters through the reach. It keeps
away from the line's ends and from the join before, so that no part is a stub. Source: joins end
on crossings and are staggered, common practice.
"""

from dataclasses import dataclass, replace
from itertools import groupby
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.crossings import meetings_on
from stitchpath.geometry.paths import Paths, cut_path, distances_along, points_at
from stitchpath.geometry.points import Points, turns_between
from stitchpath.geometry.tolerance import GRID_MM, SAME_POINT_MM
from stitchpath.hoopings.places import Cover
from stitchpath.hoopings.split import Chain, Window
from stitchpath.model.line import Line

STUB_STITCHES = 2
"""A part of a line has so many stitches at the least, where the fields allow it. Common
practice, no source."""

CLEAR_MM = 10.0
"""So far on both sides of a join a line is to be straight. Common practice, no source."""

_SHARES = (0.25, 0.75)
"""Where in its reach a join lies, taking turns between neighbouring lines."""
_TRIED = np.linspace(0.0, 1.0, 17)
"""Shares of the reach that are compared where no crossing is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A join on a line.

    Attributes:
        along: Where, in mm along the line.
        is_on_crossing: Whether another line meets it there.
    """

    along: float
    is_on_crossing: bool


_Key: TypeAlias = tuple[int, int]
"""A line, and which of its joins."""


def find_joins(
    lines: tuple[Line, ...], chains: list[Chain], cover: Cover, *, overlap_mm: float
) -> list[list[Found]]:
    """Return the joins of each line, in order along it.

    Args:
        lines: A stage's lines.
        chains: Which places sew each of them.
        cover: Where the places are.
        overlap_mm: What both sides of a join sew.

    Cost: O((joins + segments + crossings in reach) log).
    """
    crossings = _crossings(lines, chains)
    shares = _shares(lines, chains, cover)
    return [
        _joins_of(line, chain, number, crossings, shares, overlap_mm)
        for number, (line, chain) in enumerate(zip(lines, chains, strict=True))
    ]


def _joins_of(
    line: Line,
    chain: Chain,
    number: int,
    crossings: dict[_Key, NDArray[np.float64]],
    shares: dict[_Key, float],
    overlap_mm: float,
) -> list[Found]:
    if not chain.windows:
        return []
    along = distances_along(line.points)
    stub_mm = max(overlap_mm, STUB_STITCHES * line.stitch_mm)
    length, before = float(along[-1]), 0.0
    found: list[Found] = []
    for at, window in enumerate(chain.windows):
        ranges = _within(window, before + stub_mm, length - stub_mm)
        ranges = ranges or _within(window, before, length)
        target = window.low + shares[number, at] * (window.high - window.low)
        join = _nearest_crossing(crossings.get((number, at)), ranges, target)
        if join is None:
            join = Found(
                along=_straightest(line.points, along, ranges, target, overlap_mm),
                is_on_crossing=False,
            )
        if line.file_run is not None:
            join = _at_needle_point(join, along, ranges)
        found.append(join)
        before = join.along
    return found


def _at_needle_point(
    join: Found, along: NDArray[np.float64], ranges: list[tuple[float, float]]
) -> Found:
    """Return a join moved to the nearest needle point that lies where it may; else as it is.

    Moved off a crossing by more than the grid, it is on it no more.
    """
    inner = along[1:-1]
    free = np.zeros(len(inner), dtype=np.bool_)
    for low, high in ranges:
        free |= (low <= inner) & (inner <= high)
    if not free.any():
        return join
    near = inner[free]
    place = float(near[np.abs(near - join.along).argmin()])
    stays = abs(place - join.along) <= GRID_MM
    return replace(join, along=place, is_on_crossing=join.is_on_crossing and stays)


def _within(window: Window, least: float, most: float) -> list[tuple[float, float]]:
    cut = [(max(low, least), min(high, most)) for low, high in window.ranges]
    return [(low, high) for low, high in cut if low <= high]


def _nearest_crossing(
    places: NDArray[np.float64] | None, ranges: list[tuple[float, float]], target: float
) -> Found | None:
    if places is None:
        return None
    inside = np.zeros(len(places), dtype=np.bool_)
    for low, high in ranges:
        inside |= (low - SAME_POINT_MM <= places) & (places <= high + SAME_POINT_MM)
    if not inside.any():
        return None
    near = places[inside]
    return Found(along=float(near[np.abs(near - target).argmin()]), is_on_crossing=True)


def _straightest(
    points: Points,
    along: NDArray[np.float64],
    ranges: list[tuple[float, float]],
    target: float,
    overlap_mm: float,
) -> float:
    """Return where the line turns least close by; of equals, the nearest to the target."""
    is_straight = len(points) == 2  # noqa: PLR2004 - two points leave nothing to turn at
    if is_straight and any(low <= target <= high for low, high in ranges):
        return target
    tried = np.concatenate(
        [[min(max(target, low), high), *(low + _TRIED * (high - low))] for low, high in ranges]
    )
    if is_straight:
        return float(tried[np.abs(tried - target).argmin()])
    clear = max(CLEAR_MM, overlap_mm)
    first = np.searchsorted(along[1:-1], tried - clear, side="left")
    last = np.searchsorted(along[1:-1], tried + clear, side="right")
    least = int(first.min())  # of a line over many fields, only this part is looked at
    steps = np.diff(points[least : int(last.max()) + 2], axis=0)
    total = np.concatenate([[0.0], np.cumsum(turns_between(steps))])
    degrees = np.rint(np.degrees(total[last - least] - total[first - least]))
    return float(tried[np.lexsort((np.abs(tried - target), degrees))[0]])


def _crossings(lines: tuple[Line, ...], chains: list[Chain]) -> dict[_Key, NDArray[np.float64]]:
    """Return for each window where other lines meet the line in it, mm along the line."""
    keys, base, ends = _window_segments(lines, chains)
    if not len(ends):
        return {}
    paths = Paths.of([each.points for each in lines])
    others, owner, start = paths.segments, paths.owners, paths.along[paths.heads]
    length = np.hypot(*(others[:, 1] - others[:, 0]).T)
    segment, other, share = meetings_on(ends, others)
    place = base[segment] + share
    own = owner[other] == keys[segment, 0]
    beside = (start[other] - SAME_POINT_MM <= place) & (
        place <= start[other] + length[other] + SAME_POINT_MM
    )
    segment, place = segment[~(own & beside)], place[~(own & beside)]
    order = np.lexsort((place, keys[segment, 1], keys[segment, 0]))
    rows = [
        (*key, at)
        for key, at in zip(keys[segment[order]].tolist(), place[order].tolist(), strict=True)
    ]
    return {
        key: np.array([row[2] for row in group])
        for key, group in groupby(rows, key=lambda row: (row[0], row[1]))
    }


def _window_segments(
    lines: tuple[Line, ...], chains: list[Chain]
) -> tuple[NDArray[np.intp], NDArray[np.float64], NDArray[np.float64]]:
    """Return the segments of all windows: line and window, how far along, and both ends."""
    keys: list[_Key] = []
    bounds: list[tuple[float, float]] = []
    parts: list[Points] = []
    counts: list[int] = []
    for number, (line, chain) in enumerate(zip(lines, chains, strict=True)):
        if chain.windows:
            own = [(window.low, window.high) for window in chain.windows]
            keys += [(number, at) for at in range(len(own))]
            bounds += own
            cut = cut_path(line.points, np.array(own))
            counts.append(sum(map(len, cut)) - len(cut))
            parts += cut
    if not parts:
        return np.empty((0, 2), dtype=np.intp), np.empty(0), np.empty((0, 2, 2))
    paths = Paths.of(parts)
    segments, window = paths.segments, paths.owners
    lengths = np.hypot(*(segments[:, 1] - segments[:, 0]).T)
    upto = lengths.copy()
    for of_line in np.split(upto, np.cumsum(counts[:-1])):
        np.cumsum(of_line, out=of_line)
    before = upto - lengths
    first = np.flatnonzero(np.diff(window, prepend=-1))
    along = np.array(bounds)[window, 0] + before - before[first][window]
    long = lengths > SAME_POINT_MM
    return np.array(keys, dtype=np.intp)[window[long]], along[long], segments[long]


def _shares(lines: tuple[Line, ...], chains: list[Chain], cover: Cover) -> dict[_Key, float]:
    """Return where in its reach each join is to lie, staggered between neighbouring lines.

    Joins between the same two places are taken in order across the way from one to the other.
    """
    rows: list[tuple[int, int, float, _Key, bool]] = []
    sideways: dict[tuple[int, int], Points] = {}
    for number, (line, chain) in enumerate(zip(lines, chains, strict=True)):
        if not chain.windows:
            continue
        middles = np.array([(window.low + window.high) / 2 for window in chain.windows])
        for at, place in enumerate(points_at(line.points, middles)):
            one, other = chain.places[at : at + 2]
            low, high = min(one, other), max(one, other)
            if (low, high) not in sideways:
                way = np.subtract(cover[high].centre, cover[low].centre)
                sideways[low, high] = np.array([-way[1], way[0]])
            across = float(place @ sideways[low, high])
            rows.append((low, high, round(across / SAME_POINT_MM), (number, at), one > other))
    rows.sort()
    shares: dict[_Key, float] = {}
    for _, group in groupby(rows, key=lambda row: row[:2]):
        for rank, (_, _, _, key, is_back) in enumerate(group):
            shares[key] = _SHARES[(rank + is_back) % 2]
    return shares
