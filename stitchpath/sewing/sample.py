"""Lines into needle points: equal stitches on straight stretches, shorter ones on tight curves.

On each stretch between two corners, stitches are equal in effort: see `sewn_stretches`.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.geometry.tolerance import GRID_MM, WHOLE
from stitchpath.sewing.limits import StitchLimits
from stitchpath.sewing.rhythm import Rhythm, shares
from stitchpath.sewing.sewn_stretches import SewnStretches, sewn_stretches
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
    ones. A path that repeats no stretch has the same holes sewn from either end, but where a
    bend puts some so near to one another that not all stay: the first ones do.

    Args:
        paths: Polylines of shape (n, 2), mm, n >= 2, neighbours further apart than
            `SAME_POINT_MM`.
        stitch_mm: The longest stitch chosen for each path, shape (paths,).
        limits: The shortest and longest stitch and the tolerance for curves.
        goes_again: Whether parts of paths lie on others: a stretch that another path has sewn
            counts too, and one on a part of a longer straight one gets its holes between those.

    Cost: O(vertices + needle points), in whole arrays.
    """
    stretches = sewn_stretches(paths, stitch_mm, limits)
    counts = stretches.counts(limits)
    among = np.zeros_like(stretches.path) if goes_again else stretches.path
    shifts = repeat_shifts(stretches.start, stretches.end, among, stretches.middles)
    rhythm = Rhythm.of_equal_stitches(counts, shifts)
    if goes_again:
        rhythm = rhythm.beside_hosts(stretches.start, stretches.end, stretches.length)
    opens = stretches.opens
    is_plain = _are_plain(stretches, rhythm, limits)
    plain = straight_points(_straights(stretches, counts, is_plain))
    if is_plain.all():
        return _of_stretches(plain, counts + opens, opens)
    bent = np.flatnonzero(~is_plain)
    stretch, share = shares(rhythm.chosen(bent), stretches.length[bent], limits)
    stretch, share = _at_tips(bent[stretch], share, stretches, limits)
    sizes = np.where(is_plain, counts, np.bincount(stretch, minlength=len(counts))) + opens
    starts = stretches.start[opens & ~is_plain]
    ends = stretches.places(stretch, share)
    bent_points = _with_starts(ends, sizes[bent], opens[bent], starts)
    merged = _merged(np.repeat(is_plain, sizes), plain, bent_points)
    return _kept(_of_stretches(merged, sizes, opens), limits)


def _are_plain(
    stretches: SewnStretches, rhythm: Rhythm, limits: StitchLimits
) -> NDArray[np.bool_]:
    """Return which stretches are straight, in stitches long enough, and unmoved."""
    is_long = stretches.length / rhythm.count > (limits.shortest_mm - GRID_MM) * (1 + WHOLE)
    return np.asarray(stretches.is_straight & is_long & ~rhythm.moved)


def _straights(
    stretches: SewnStretches,
    counts: NDArray[np.intp],
    is_plain: NDArray[np.bool_],
) -> Straights:
    """Return the plain stretches with all that their needle points come from."""
    return Straights(
        start=stretches.start[is_plain],
        step=stretches.segment_step[stretches.head[is_plain]],
        end=stretches.end[is_plain],
        begin=stretches.begin[is_plain],
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


def _at_tips(
    stretch: NDArray[np.intp],
    share: NDArray[np.float64],
    stretches: SewnStretches,
    limits: StitchLimits,
) -> tuple[NDArray[np.intp], NDArray[np.float64]]:
    """Put one needle point, at the tip of a bend, for two that the bend brings too near.

    Only where that makes no stitch too short or too long.
    """
    xy = stretches.places(stretch, share)
    least = limits.shortest_mm - GRID_MM
    begins = np.diff(stretch, prepend=-1) > 0
    near = np.flatnonzero((segment_lengths(xy) < least) & ~begins[1:] & (share[1:] < 1))
    first = near[np.diff(near, prepend=-2) > 1]
    middle = (share[first] + share[first + 1]) / 2
    tips = stretches.places(stretch[first], middle)
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
