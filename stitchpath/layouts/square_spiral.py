"""Square spiral: one line from the middle outwards, always square to the edges.

Construction: round the area's upright rectangle, `spacing` inside it, each turn `spacing`
inside the last, until there is no room; sewn the other way, from the middle outwards. Source:
elementary.
"""

from math import floor
from typing import Final

import numpy as np

from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.model.project import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the one strand, from the middle outwards; none where there is no room."""
    left, top, right, bottom = ground.region.bounds
    step = spec.spacing
    turns = floor(min(right - left, bottom - top) / (2 * step))
    inset = step * np.arange(1, turns + 1)
    x0, y0, x1, y1 = left + inset, top + inset, right - inset, bottom - inset
    corners = np.stack([(x1, y0), (x1, y1), (x0, y1), (x0, y0 + step)])  # corner, axis, turn
    points = np.vstack([[left + step, top + step], corners.transpose(2, 0, 1).reshape(-1, 2)])
    points = points[: len(points) - _turned_back(right - left, bottom - top, step)]
    moved = np.abs(np.diff(points, axis=0)).max(axis=1) > SAME_POINT_MM
    points = points[np.concatenate([[True], moved])]
    return (Strand(points=points[::-1]),) if len(points) > 1 else ()


def _turned_back(width: float, height: float, step: float) -> int:
    """Return how many corners of the last turn would bring the line back beside itself."""
    narrow, low = (side % (2 * step) < step / 2 for side in (width, height))
    if min(width, height) < 2 * step:
        return 0  # no turn at all
    if low and height <= width:
        return 3
    if narrow and width <= height:
        return 2
    return int(height % (2 * step) < step)


LAYOUT: Final = Layout(
    summary="one line from the middle outwards, always square to the edges",
    make=make,
    keys={"spacing": "75 mm"},
)
