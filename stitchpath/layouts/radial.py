"""Radial lines: rays from the centre, as of a rising sun.

Construction: `count` rays, 360 degrees / `count` apart, the first straight up, reach past the
corners. If all met in one point, the thread would heap up there and the needle perforate the
cloth. So only rays a quarter of a turn or more apart run to the centre, two of them joined to
one line; each of the others begins where it is `gap` from its neighbours that began farther
in: rays are halved again and again, and a ray that is k / `count` of a turn from the nearest
of them begins gap / sin(360 degrees k / count) from the centre. The lines through the centre
are anchors, the upright one first. Source: geometry, elementary; rays that stop short are
common practice, no source.
"""

from collections import deque
from math import ceil, hypot, pi
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.layouts._layout import Ground, Layout, Strand, evenly
from stitchpath.model.quilt import Quilting

_GAP_MM: Final = 6.0
_OCTANTS: Final = 8


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the lines through the centre, then the rays that begin outside it."""
    reach = _reach_mm(ground)
    count = _default_count(ground, spec) if spec.count is None else spec.count
    steps = _steps_to_nearest(count)
    turn = 2 * pi / count
    ways = np.column_stack([np.sin(np.arange(count) * turn), -np.cos(np.arange(count) * turn)])
    through = np.flatnonzero(4 * steps >= count)
    apart = np.flatnonzero(4 * steps < count)
    gap = _GAP_MM if spec.gap is None else spec.gap
    starts = gap / np.sin(turn * steps[apart])
    seen = starts < reach
    near = ground.centre + ways[apart][seen] * starts[seen, None]
    far = ground.centre + ways[apart][seen] * reach
    rays = np.stack([near, far], axis=1)
    whole = _joined(ground.centre, ways[through] * reach)
    return (*whole, *(Strand(points=ray) for ray in rays))


def _joined(centre: tuple[float, float], tips: Points) -> list[Strand]:
    """Return rays joined to lines through the centre, each with the one across."""
    half = (len(tips) + 1) // 2
    lines = []
    for index in range(half):
        across = tips[index + half : index + half + 1]
        points = np.concatenate([tips[index : index + 1], np.zeros((1, 2)), across]) + centre
        lines.append(Strand(points=points, anchor=True))
    return lines


def _steps_to_nearest(count: int) -> NDArray[np.int64]:
    """Return how many rays away the nearest ray is that was placed before, by halving."""
    steps = np.full(count, count)
    between = deque([(0, count)])
    while between:
        low, high = between.popleft()
        if high - low > 1:
            middle = (low + high) // 2
            steps[middle] = min(middle - low, high - middle)
            between += [(low, middle), (middle, high)]
    return steps


def _reach_mm(ground: Ground) -> float:
    """Return how far the region's box reaches from the centre."""
    left, top, right, bottom = ground.region.bounds
    x, y = ground.centre
    return hypot(max(right - x, x - left), max(bottom - y, y - top)) + 1


def _default_count(ground: Ground, spec: Quilting) -> int:
    """Return rays in whole octants, their ends at most `spacing` apart at the corners."""
    left, top, right, bottom = ground.frame
    rim = pi * hypot(right - left, bottom - top)
    return _OCTANTS * max(1, ceil(rim / spec.spacing / _OCTANTS))


LAYOUT: Final = Layout(
    summary="rays from the centre; only a few meet in it",
    make=make,
    keys={
        "count": "a multiple of 8; rays end a spacing apart or less",
        "spacing": "75 mm",
        "gap": "6 mm, the least between rays near the centre",
    },
    density=evenly(2.0),
)
