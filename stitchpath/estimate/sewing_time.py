"""How long a hooping's file takes: stitches at the speed their length allows, starts, stops.

Formula. The frame moves only while the needle is out, a share d of a turn, and it starts and
stops with an acceleration a: a stitch of length L takes at least 2 sqrt(L / a) / d, so

    spm(L) = min(set speed, 60 d sqrt(a / L) / 2).

The first stitches after each start (jump, cut, pause) take twice their time. All sewing is
divided by the project's speed factor; cuts, snips and pauses take their own times.

Source: that speed goes with 1 / sqrt L is derived from even acceleration; a and d are fitted to
one machine of memory (catalog/times). 10,000 stitches at 700 a minute take 14.3 min (see
docs/sources.md). Limits: machines differ, so one timed file sets the speed factor; moves
without sewing count as part of the cut before them.
"""

import numpy as np
from numpy.typing import NDArray

from stitchpath.catalog.times import FRAME_ACCELERATION, NEEDLE_OUT_SHARE
from stitchpath.geometry.points import parts_of, segment_lengths
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Figures
from stitchpath.model.stitches import Op, Stitches
from stitchpath.model.supplies import Times

_MINUTE = 60.0


def sewing_seconds(stitches: Stitches, machine: Machine, times: Times) -> float:
    """Return how long the needle takes for all its points, without cuts and pauses."""
    turns = _MINUTE / machine.speed
    is_point = stitches.op == Op.STITCH
    follows = np.zeros(len(stitches), dtype=np.bool_)
    follows[1:] = is_point[1:] & is_point[:-1]
    seconds = np.zeros(len(stitches))
    seconds[1:] = segment_lengths(stitches.xy)
    seconds[~follows] = 0.0  # a first point is no stitch, but a turn of the needle
    for part in parts_of(len(stitches)):
        out = 2 * np.sqrt(seconds[part] / FRAME_ACCELERATION) / NEEDLE_OUT_SHARE
        seconds[part] = np.maximum(turns, out)
    seconds[_after_starts(is_point & ~follows, times.ramp_stitches)] *= 2
    return float(seconds[is_point].sum()) / times.speed_factor


def stop_seconds(figures: Figures, times: Times) -> float:
    """Return how long the cuts, snips and pauses of a file take."""
    return (
        figures.thread_cuts * times.cut_seconds
        + figures.snips * times.snip_seconds
        + figures.pauses * times.pause_seconds
    )


def timed_factor(figures: Figures, times: Times, timed_seconds: float) -> float:
    """Return the speed factor with which a file takes as long as it was timed.

    Args:
        figures: What the file comes to with `times`.
        times: What the estimate was made with.
        timed_seconds: From the first needle point to the last, cuts and pauses included.

    Raises:
        ValueError: The stops alone take as long or longer.

    Example:
        >>> timed_factor(Figures(seconds=600, thread_cuts=12), Times(), 780)
        0.75
    """
    stops = stop_seconds(figures, times)
    if timed_seconds <= stops:
        raise ValueError(f"the cuts and pauses alone take {stops:g} s")
    return (figures.seconds - stops) * times.speed_factor / (timed_seconds - stops)


def _after_starts(starts: NDArray[np.bool_], count: int) -> NDArray[np.bool_]:
    """Return which rows are starts, or among the next rows after one, `count` with it."""
    rows = np.flatnonzero(starts)
    after = np.zeros(len(starts) + count, dtype=np.bool_)
    for step in range(count):
        after[rows + step] = True
    return after[: len(starts)]
