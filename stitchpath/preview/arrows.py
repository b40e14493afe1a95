"""Where arrows stand that show the way a line is sewn."""

from typing import Final

import numpy as np

from stitchpath.geometry.points import Points, turns_between
from stitchpath.geometry.tolerance import SHARP_TURN_DEG
from stitchpath.preview.polylines import Polylines

_SHARE: Final = 0.38
"""Of a stretch: past its start, but not in its middle, where other lines cross."""
_UPRIGHT_SHARE: Final = 0.31
"""Of an upright one, so that the arrows of two lines do not meet where these cross."""
_LEVEL_DEG: Final = 20.0
"""Lines at 0 and 90, 45 and 135, 60 and 120 or 30 and 150 degrees are told apart, with room."""


def arrow_places(
    lines: Polylines, *, every_mm: float, least_mm: float
) -> tuple[Points, Points]:
    """Return places on long stretches, and the unit vectors of the direction there.

    A stretch is what lies between sharp turns, so that an arrow never stands in a corner.

    Args:
        lines: Neighbouring points do not coincide.
        every_mm: One place for each such length, and at least one on a long stretch.
        least_mm: Shorter stretches get none.

    Returns:
        Places, shape (n, 2), mm, and directions, shape (n, 2).
    """
    steps = np.diff(lines.points, axis=0)
    inside = np.ones(len(steps), dtype=np.bool_)
    inside[lines.starts[1:] - 1] = False
    length = np.hypot(steps[:, 0], steps[:, 1]) * inside
    first = _first_segments(steps, inside)
    reached = np.concatenate([[0.0], np.cumsum(length)])
    begin = reached[first]
    long = np.diff(np.append(begin, reached[-1]))
    counts = np.where(long >= least_mm, np.maximum(1, long // every_mm), 0).astype(np.intp)
    stretch = np.repeat(np.arange(len(first)), counts)
    nth = np.arange(len(stretch)) - np.repeat(np.cumsum(counts) - counts, counts)
    share = np.where(_is_upright(steps[first]), _UPRIGHT_SHARE, _SHARE)[stretch]
    at = begin[stretch] + (nth + share) / counts[stretch] * long[stretch]
    row = np.searchsorted(reached, at) - 1
    heading = steps[row] / length[row, None]
    return lines.points[row] + heading * (at - reached[row])[:, None], heading


def _first_segments(steps: Points, inside: np.ndarray) -> np.ndarray:
    """Return the segments that begin a stretch: after a sharp turn or between polylines."""
    is_corner = turns_between(steps) > np.radians(SHARP_TURN_DEG)
    begins = is_corner | ~inside[1:] | ~inside[:-1]
    return np.flatnonzero(np.append(np.ones(min(1, len(steps)), dtype=np.bool_), begins))


def _is_upright(steps: Points) -> np.ndarray:
    """Return which steps count as upright: of each usual pair that crosses, just one."""
    turn = np.degrees(np.arctan2(steps[:, 1], steps[:, 0])) % 180
    return np.asarray((turn > _LEVEL_DEG) & (turn < _LEVEL_DEG + 90))
