"""Lines into needle points: equal stitches on straight stretches, shorter ones on tight curves.

A *stretch* lies between two corners (or ends) of a path. A stretch of one segment is straight;
any other is a flattened curve, followed within a tolerance: the chord of a stitch of length s
on a circle of radius r leaves it by s^2 / 8r, so s <= sqrt(8 r d) for a deviation d. The
shortest stitch goes before: where it is s, curves tighter than about s^2 / 8d (2.5 mm for 1 mm
and 0.05 mm) are left by more.
"""

from dataclasses import dataclass
from math import dist

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.geometry.tolerance import BLUNT_MM, GRID_MM, SAME_POINT_MM, SHARP_TURN_DEG
from stitchpath.sewing.limits import StitchLimits
from stitchpath.sewing.rhythm import WHOLE, Rhythm, shares
from stitchpath.sewing.stagger import repeat_shifts


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sampled:
    """Needle points of several paths, one after another.

    Attributes:
        xy: Shape (n, 2), mm.
        starts: Row at which each path begins, and at the end n, shape (paths + 1,).
    """

    xy: Points
    starts: NDArray[np.intp]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Segments:
    """The segments of all paths, one row each."""

    start: Points
    step: Points
    length: NDArray[np.float64]
    stitch: NDArray[np.float64]
    path: NDArray[np.intp]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Stretches:
    """The stretches of all paths, one row each; `effort` is in stitches, a fraction as yet."""

    head: NDArray[np.intp]
    start: Points
    end: Points
    length: NDArray[np.float64]
    effort: NDArray[np.float64]
    path: NDArray[np.intp]


def sample_paths(
    paths: list[Points],
    stitch_mm: NDArray[np.float64],
    limits: StitchLimits,
    *,
    goes_again: bool = False,
) -> Sampled:
    """Return needle points along polylines.

    Ends and corners get a needle point. On each stretch the chosen stitch is shrunk until it
    divides the length; where that would make it shorter than the shortest, fewer and longer
    ones are taken. A stretch that its path has sewn before gets its holes between the earlier
    ones.

    Args:
        paths: Polylines of shape (n, 2), mm, n >= 2, neighbours further apart than
            `SAME_POINT_MM`.
        stitch_mm: The longest stitch chosen for each path, shape (paths,).
        limits: The shortest and longest stitch and the tolerance for curves.
        goes_again: Whether parts of paths lie on others: a stretch that another path has sewn
            counts too, and one on a part of a longer straight one gets its holes between those.

    Cost: O(vertices + needle points), in whole arrays.
    """
    segments = _segments(paths, stitch_mm)
    effort, heads = _effort(segments, limits)
    stretches = _stretches(segments, effort, heads)
    counts = _counts(stretches, limits)
    among = np.zeros_like(stretches.path) if goes_again else stretches.path
    shifts = repeat_shifts(stretches.start, stretches.end, among)
    rhythm = Rhythm.of_equal_stitches(counts, shifts)
    if goes_again:
        rhythm = rhythm.beside_hosts(stretches.start, stretches.end, stretches.length)
    stretch, share = shares(rhythm, stretches.length, limits)
    xy = _places(segments, effort, stretches, stretch, share)
    firsts = np.array([path[0] for path in paths])
    return _thinned(_with_starts(xy, stretches.path[stretch], firsts), limits)


def _segments(paths: list[Points], stitch_mm: NDArray[np.float64]) -> _Segments:
    vertices = np.concatenate(paths)
    path_of = np.repeat(np.arange(len(paths)), [len(path) for path in paths])
    first = np.flatnonzero(np.diff(path_of) == 0)
    step = vertices[first + 1] - vertices[first]
    return _Segments(
        start=vertices[first],
        step=step,
        length=np.hypot(step[:, 0], step[:, 1]),
        stitch=stitch_mm[path_of[first]],
        path=path_of[first],
    )


def _effort(
    segments: _Segments, limits: StitchLimits
) -> tuple[NDArray[np.float64], NDArray[np.intp]]:
    """Return the stitches each segment takes, and which segments begin a stretch.

    A stretch begins at sharp turns, and at turns between segments so long that a stitch across
    would leave the line by more than the tolerance.
    """
    length, stitch = segments.length, segments.stitch
    heading = np.arctan2(segments.step[:, 1], segments.step[:, 0])
    turn = np.concatenate([[np.inf], np.abs((np.diff(heading) + np.pi) % (2 * np.pi) - np.pi)])
    turn[1:][np.diff(segments.path) != 0] = np.inf
    between = np.concatenate([[1.0], (length[1:] + length[:-1]) / 2])
    shortcut = np.minimum(stitch, between) * turn / 4
    angular = (between >= stitch / 2) & (shortcut > limits.deviation_mm)
    opens = (np.radians(SHARP_TURN_DEG) < turn) | angular
    curvature = np.where(opens, 0.0, turn) / between
    curvature = np.maximum(curvature, np.append(curvature[1:], 0.0))
    followed = np.minimum(
        np.sqrt(curvature / (8 * limits.deviation_mm)), 1 / limits.shortest_mm
    )
    return length * np.maximum(1 / stitch, followed), np.flatnonzero(opens)


def _stretches(
    segments: _Segments, effort: NDArray[np.float64], heads: NDArray[np.intp]
) -> _Stretches:
    tails = np.append(heads[1:], len(effort)) - 1
    return _Stretches(
        head=heads,
        start=segments.start[heads],
        end=segments.start[tails] + segments.step[tails],
        length=np.add.reduceat(segments.length, heads),
        effort=np.add.reduceat(effort, heads),
        path=segments.path[heads],
    )


def _counts(stretches: _Stretches, limits: StitchLimits) -> NDArray[np.intp]:
    """Return how many stitches each stretch takes: enough, not too short, never too long."""
    wanted = np.ceil(stretches.effort * (1 - WHOLE))
    at_most = np.floor(stretches.length / limits.shortest_mm * (1 + WHOLE))
    at_least = np.ceil(stretches.length / limits.longest_mm * (1 - WHOLE))
    return np.maximum(np.maximum(np.minimum(wanted, at_most), at_least), 1).astype(np.intp)


def _places(
    segments: _Segments,
    effort: NDArray[np.float64],
    stretches: _Stretches,
    stretch: NDArray[np.intp],
    share: NDArray[np.float64],
) -> Points:
    """Return where each needle point lies, by its share of its stretch's effort."""
    ends = np.cumsum(effort)
    begins = ends - effort
    target = begins[stretches.head][stretch] + share * stretches.effort[stretch]
    segment = np.minimum(np.searchsorted(ends, target), len(effort) - 1)
    segment = np.maximum(segment, stretches.head[stretch])
    within = np.clip((target - begins[segment]) / effort[segment], 0.0, 1.0)
    xy = segments.start[segment] + within[:, None] * segments.step[segment]
    is_end = share == 1.0
    xy[is_end] = stretches.end[stretch[is_end]]  # corners exactly
    return np.asarray(xy)


def _thinned(sampled: Sampled, limits: StitchLimits) -> Sampled:
    """Leave out needle points that a crooked line puts too near the one before.

    Only bends tighter than any stitch can follow do that; ends always stay.
    """
    least = limits.shortest_mm - GRID_MM
    steps = segment_lengths(sampled.xy)
    steps[sampled.starts[1:-1] - 1] = np.inf
    crooked = np.unique(np.searchsorted(sampled.starts, np.flatnonzero(steps < least), "right"))
    if not len(crooked):
        return sampled
    keep = np.ones(len(sampled.xy), dtype=bool)
    for path in crooked.tolist():
        first, last = int(sampled.starts[path - 1]), int(sampled.starts[path]) - 1
        points = sampled.xy[first : last + 1]
        keep[first : last + 1] = _far_enough(points, least, limits.longest_mm)
    sizes = np.add.reduceat(keep, sampled.starts[:-1])
    return Sampled(xy=sampled.xy[keep], starts=np.concatenate([[0], np.cumsum(sizes)]))


def _far_enough(points: Points, least_mm: float, most_mm: float) -> NDArray[np.bool_]:
    """Return which points to keep so that neighbours are far enough apart, both ends always.

    One that is near stays where the stitch over it would be too long, or cut a corner.
    """
    keep = np.ones(len(points), dtype=bool)
    places = points.tolist()
    last = places[0]
    for index in range(1, len(places) - 1):
        here, after = places[index], places[index + 1]
        is_near = dist(last, here) < least_mm or dist(here, places[-1]) < least_mm
        if is_near and dist(last, after) <= most_mm and _off(last, here, after) < BLUNT_MM:
            keep[index] = False
        else:
            last = here
    return keep


def _off(start: list[float], point: list[float], end: list[float]) -> float:
    """Return how far a point lies from the straight stitch between two others, mm.

    Where the line turns back at the point, that is its distance from the nearer of them.
    """
    (x0, y0), (x, y), (x1, y1) = start, point, end
    square = (x1 - x0) ** 2 + (y1 - y0) ** 2
    along = (x - x0) * (x1 - x0) + (y - y0) * (y1 - y0)
    share = min(max(along / square, 0.0), 1.0) if square > SAME_POINT_MM**2 else 0.0
    return dist(point, [x0 + share * (x1 - x0), y0 + share * (y1 - y0)])


def _with_starts(xy: Points, path_of: NDArray[np.intp], starts: Points) -> Sampled:
    """Put each path's first vertex before its other needle points."""
    sizes = np.bincount(path_of, minlength=len(starts)) + 1
    offsets = np.concatenate([[0], np.cumsum(sizes)])
    full = np.empty((offsets[-1], 2))
    is_start = np.zeros(offsets[-1], dtype=bool)
    is_start[offsets[:-1]] = True
    full[is_start] = starts
    full[~is_start] = xy
    return Sampled(xy=full, starts=offsets)
