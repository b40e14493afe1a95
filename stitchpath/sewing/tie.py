"""Ties: the few short stitches that lock a path's start and end.

Two short stitches forward along the line, one and a half back, then on; nothing is sewn on the
spot. Number: at least three tying stitches where a machine locks ends by itself (US Army repair
manuals, see docs/sources.md). Length: 0.7 to 1.0 mm, common practice, no source. So that no
hole is used twice, a tie's holes fall on thirds of the path's own first stitches.
"""

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.sewing.sample import Sampled

TIE_STITCH_MM = 0.9
"""The longest third of a path's stitch that a tie takes."""
SHORT_TIE_MM = 0.6
"""Where a third is shorter, two thirds are taken."""
TIE_WALK = np.array([1.0, 2.0, 0.5])
"""Where the needle goes down, in tie stitches from the end of the line."""

LOCK_STITCHES = 4
"""Among so many stitches at an end a stitch file's own tie is looked for."""
FEWEST_LOCKS = 2
"""So many of them are short where there is one. Common practice, no source."""
LOCK_MM = 1.1
"""A stitch of a file's own tie is no longer: 0.7 to 1.0 mm (common practice, no source), and
what rounding to the grid of files adds."""


def tied_points(points: Points) -> int:
    """Return how many needle points after the first belong to a tie that a run has already.

    Args:
        points: The run's needle points, shape (n, 2), mm, from the end that is asked for.

    Example:
        >>> tied_points(np.array([[0.0, 0.0], [0.8, 0.0], [0.0, 0.0], [3.0, 0.0], [6.0, 0.0]]))
        2
    """
    short = np.flatnonzero(segment_lengths(points[: LOCK_STITCHES + 1]) <= LOCK_MM)
    return int(short[-1]) + 1 if len(short) >= FEWEST_LOCKS else 0


def tie_places(sampled: Sampled) -> tuple[Points, Points]:
    """Return the extra needle points after each path's first and before its last point.

    Args:
        sampled: Needle points of paths. On a path too short for its ties their stitches shrink,
            to a fifth of its length.

    Returns:
        Two arrays of shape (paths, 3, 2), mm, each in the order of sewing.
    """
    steps = segment_lengths(sampled.xy)
    steps[sampled.starts[1:-1] - 1] = 0.0  # from one path to the next
    along = np.zeros(len(sampled.xy))
    np.cumsum(steps, out=along[1:])
    first, last = along[sampled.starts[:-1]], along[sampled.starts[1:] - 1]
    room = (last - first) / 5
    walk_in = _tie_stitches(steps[sampled.starts[:-1]], room) * TIE_WALK
    walk_out = _tie_stitches(steps[sampled.starts[1:] - 2], room) * TIE_WALK
    return (
        _places(sampled, along, first[:, None] + walk_in),
        _places(sampled, along, (last[:, None] - walk_out)[:, ::-1]),
    )


def _tie_stitches(
    beside: NDArray[np.float64], room: NDArray[np.float64]
) -> NDArray[np.float64]:
    """Return the stitch of each tie, shape (paths, 1), from that of the path beside it."""
    third = beside / 3
    stitch = np.where(third < SHORT_TIE_MM, 2 * third, np.minimum(third, TIE_STITCH_MM))
    return np.minimum(stitch, room)[:, None]


def _places(
    sampled: Sampled, along: NDArray[np.float64], target: NDArray[np.float64]
) -> Points:
    """Return the places at given distances along all paths laid end to end."""
    row = np.clip(np.searchsorted(along, target, side="right") - 1, 0, len(along) - 2)
    share = (target - along[row]) / (along[row + 1] - along[row])
    before, after = sampled.xy[row], sampled.xy[row + 1]
    return np.asarray(before + share[..., None] * (after - before))
