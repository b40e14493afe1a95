"""Hops: short moves with the thread uncut, and what they must not cross."""

from collections.abc import Sequence
from math import dist
from typing import TypeAlias

import numpy as np
import shapely
from shapely import ops

from stitchpath.geometry.points import Points, path_length
from stitchpath.geometry.tolerance import MEETING_MM

UNCUT_TRAVEL_MM = 6.0
"""Longer travel cuts the thread: a longer float of thread on a quilt snags, and nothing covers
it. Common practice (5 to 8 mm), no source."""


Barriers: TypeAlias = shapely.Geometry | None
"""Where no thread may lie across: keep-outs, a pocket's opening; None for nothing of it."""


def may_hop(start: Sequence[float], end: Sequence[float], barriers: Barriers) -> bool:
    """Return whether the needle may move from place to place without a thread cut."""
    near = dist(start, end) <= UNCUT_TRAVEL_MM
    return near and not is_barred(np.array([start, end]), barriers)


def is_barred(way: Points, barriers: Barriers) -> bool:
    """Return whether a way meets barriers, other than by beginning or ending on one."""
    if barriers is None or not shapely.intersects(barriers, shapely.LineString(way)):
        return False
    room = min(MEETING_MM, path_length(way) / 4)
    inner = ops.substring(shapely.LineString(way), room, path_length(way) - room)
    return bool(shapely.intersects(barriers, inner))
