"""Lines into needle points: equal stitches on straight stretches, shorter ones on tight curves.

A *stretch* lies between two corners (or ends) of a path. A stretch of one segment is straight;
any other is a flattened curve, followed within a tolerance: the chord of a stitch of length s
on a circle of radius r leaves it by s^2 / 8r, so s <= sqrt(8 r d) for a deviation d. The
shortest stitch goes before: where it is s, curves tighter than about s^2 / 8d (2.5 mm for 1 mm
and 0.05 mm) are left by more.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.geometry.tolerance import GRID_MM, SHARP_TURN_DEG
from stitchpath.sewing.limits import StitchLimits
from stitchpath.sewing.rhythm import WHOLE, Rhythm, shares
from stitchpath.sewing.stagger import repeat_shifts
from stitchpath.sewing.thin import far_enough


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
    places = partial(_places, segments, effort, stretches)
    stretch, share = _at_tips(places, stretch, share, stretches.path, limits)
    firsts = np.array([path[0] for path in paths])
    sampled = _with_starts(places(stretch, share), stretches.path[stretch], firsts)
    keep = far_enough(sampled.xy, sampled.starts, limits)
    sizes = np.add.reduceat(keep, sampled.starts[:-1])
    return Sampled(xy=sampled.xy[keep], starts=np.concatenate([[0], np.cumsum(sizes)]))


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


def _at_tips(
    places: Callable[[NDArray[np.intp], NDArray[np.float64]], Points],
    stretch: NDArray[np.intp],
    share: NDArray[np.float64],
    path: NDArray[np.intp],
    limits: StitchLimits,
) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
    """Put one needle point, at the tip of a bend, for two that the bend brings too near.

    Only where that makes no stitch too short or too long.
    """
    xy = places(stretch, share)
    least = limits.shortest_mm - GRID_MM
    is_near = (segment_lengths(xy) < least) & (np.diff(stretch) == 0) & (share[1:] < 1)
    goes_on = np.diff(path[stretch]) == 0
    first = np.flatnonzero(is_near[1:-1] & goes_on[:-2] & goes_on[2:]) + 1
    first = first[np.diff(first, prepend=-1) > 1]
    middle = (share[first] + share[first + 1]) / 2
    tips = places(stretch[first], middle)
    reach = np.hypot(*np.stack([tips - xy[first - 1], tips - xy[first + 2]]).transpose(2, 0, 1))
    fits = ((least <= reach) & (reach <= limits.longest_mm)).all(axis=0)
    share[first[fits]] = middle[fits]
    return np.delete(stretch, first[fits] + 1), np.delete(share, first[fits] + 1)


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
