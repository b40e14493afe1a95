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

from stitchpath.geometry.points import Points, segment_lengths, turns_between
from stitchpath.geometry.tolerance import GRID_MM, SHARP_TURN_DEG
from stitchpath.sewing.limits import StitchLimits
from stitchpath.sewing.rhythm import WHOLE, Rhythm, shares
from stitchpath.sewing.stagger import repeat_shifts
from stitchpath.sewing.straight import Straights, straight_points
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

    @property
    def opens(self) -> NDArray[np.bool_]:
        """Which stretches open a path, shape (n,)."""
        return np.asarray(np.diff(self.path, prepend=-1) > 0)


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
    opens = stretches.opens
    is_plain = _are_plain(stretches, rhythm, len(segments.path), limits)
    plain = straight_points(_straights(segments, effort, stretches, counts, is_plain))
    if is_plain.all():
        return _of_stretches(plain, counts + opens, opens)
    bent = np.flatnonzero(~is_plain)
    stretch, share = shares(rhythm.chosen(bent), stretches.length[bent], limits)
    places = partial(_places, segments, effort, stretches)
    stretch, share = _at_tips(places, bent[stretch], share, stretches, limits)
    sizes = np.where(is_plain, counts, np.bincount(stretch, minlength=len(counts))) + opens
    starts = stretches.start[opens & ~is_plain]
    bent_points = _with_starts(places(stretch, share), sizes[bent], opens[bent], starts)
    merged = _merged(np.repeat(is_plain, sizes), plain, bent_points)
    return _kept(_of_stretches(merged, sizes, opens), limits)


def _are_plain(
    stretches: _Stretches, rhythm: Rhythm, segments: int, limits: StitchLimits
) -> NDArray[np.bool_]:
    """Return which stretches are straight, in stitches long enough, and unmoved."""
    is_straight = np.diff(np.append(stretches.head, segments)) == 1
    is_long = stretches.length / rhythm.count > (limits.shortest_mm - GRID_MM) * (1 + WHOLE)
    return np.asarray(is_straight & is_long & ~rhythm.moved)


def _straights(
    segments: _Segments,
    effort: NDArray[np.float64],
    stretches: _Stretches,
    counts: NDArray[np.intp],
    is_plain: NDArray[np.bool_],
) -> Straights:
    """Return the plain stretches with all that their needle points come from."""
    head = stretches.head[is_plain]
    return Straights(
        start=stretches.start[is_plain],
        step=segments.step[head],
        end=stretches.end[is_plain],
        begin=(np.cumsum(effort) - effort)[head],
        effort=stretches.effort[is_plain],
        count=counts[is_plain],
        opens=stretches.opens[is_plain],
    )


def _of_stretches(xy: Points, sizes: NDArray[np.intp], opens: NDArray[np.bool_]) -> Sampled:
    """Return needle points with the rows at which paths begin, from the sizes of stretches."""
    begins = np.cumsum(sizes) - sizes
    return Sampled(xy=xy, starts=np.append(begins[opens], len(xy)))


def _merged(is_first: NDArray[np.bool_], first: Points, second: Points) -> Points:
    """Return two lists of points as one: which rows are the first one's."""
    xy = np.empty((len(is_first), 2))
    xy[is_first], xy[~is_first] = first, second
    return xy


def _kept(sampled: Sampled, limits: StitchLimits) -> Sampled:
    """Leave out needle points that a crooked line puts too near to the last one."""
    keep = far_enough(sampled.xy, sampled.starts, limits)
    if keep.all():
        return sampled
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
    turn = np.concatenate([[np.inf], turns_between(segments.step)])
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
    stretches: _Stretches,
    limits: StitchLimits,
) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
    """Put one needle point, at the tip of a bend, for two that the bend brings too near.

    Only where that makes no stitch too short or too long.
    """
    xy = places(stretch, share)
    least = limits.shortest_mm - GRID_MM
    begins = np.diff(stretch, prepend=-1) > 0
    near = np.flatnonzero((segment_lengths(xy) < least) & ~begins[1:] & (share[1:] < 1))
    near = near[~(begins[near] & stretches.opens[stretch[near]])]
    first = near[np.diff(near, prepend=-2) > 1]
    middle = (share[first] + share[first + 1]) / 2
    tips = places(stretch[first], middle)
    before = np.where(begins[first, None], stretches.start[stretch[first]], xy[first - 1])
    reach = np.hypot(*np.stack([tips - before, tips - xy[first + 2]]).transpose(2, 0, 1))
    fits = ((least <= reach) & (reach <= limits.longest_mm)).all(axis=0)
    share[first[fits]] = middle[fits]
    return np.delete(stretch, first[fits] + 1), np.delete(share, first[fits] + 1)


def _with_starts(
    xy: Points, sizes: NDArray[np.intp], opens: NDArray[np.bool_], starts: Points
) -> Points:
    """Put a path's first vertex before the needle points of each stretch that opens one."""
    full = np.empty((sizes.sum(), 2))
    is_start = np.zeros(len(full), dtype=np.bool_)
    is_start[(np.cumsum(sizes) - sizes)[opens]] = True
    full[is_start], full[~is_start] = starts, xy
    return full
