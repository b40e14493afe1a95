"""Square spiral: one line that winds in right angles.

Construction: from the centre, along the frame's longer side and round at right angles, each
pass `spacing` outside the last. The first two passes lie half a spacing on either side of the
centre and are as much longer than short as the frame is longer than wide, so that the spiral
reaches its four edges together. From the edge, along the border of the region's box from its
upper left corner, each round a spacing inside the last, until no room is left. Source:
elementary.
"""

from math import ceil
from typing import Final

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.layouts._layout import Ground, Layout, Strand
from stitchpath.model.quilt import Quilting


def make(ground: Ground, spec: Quilting) -> tuple[Strand, ...]:
    """Return the spiral, from where it starts."""
    if spec.start == "edge":
        return (Strand(points=_inwards(ground.region.bounds, spec.spacing)),)
    centre, box = np.array(ground.centre), np.reshape(ground.region.bounds, (2, 2))
    width, height = np.diff(np.reshape(ground.frame, (2, 2)), axis=0)[0].tolist()
    is_tall = width < height
    reach = np.abs(box - centre).max(axis=0)[:: -1 if is_tall else 1]
    points = _outwards(abs(width - height) / 2, (reach[0], reach[1]), spec.spacing)
    return (Strand(points=points[:, :: -1 if is_tall else 1] + centre),)


def _outwards(free_mm: float, reach: tuple[float, float], spacing_mm: float) -> Points:
    """Return the corners of a spiral about 0, 0 that covers a lying box.

    Args:
        free_mm: Half of how much longer the box is than wide.
        reach: Half its width and height.
        spacing_mm: From pass to pass.
    """
    most = max(reach[0] - free_mm, reach[1]) / spacing_mm
    turns = np.arange(ceil(most) + 1)
    near = free_mm + turns * spacing_mm
    far, down = near + spacing_mm, (turns + 0.5) * spacing_mm
    corners = [(-near, -down), (far, -down), (far, down), (-far, down)]
    return np.stack([np.column_stack(corner) for corner in corners], axis=1).reshape(-1, 2)


def _inwards(box: tuple[float, float, float, float], spacing_mm: float) -> Points:
    """Return the corners of a spiral from a box's upper left corner, while it has room."""
    left, top, right, bottom = box
    room = min(right - left, bottom - top)
    inset = np.arange(int(room / spacing_mm / 2) + 1) * spacing_mm
    rounds = np.stack(
        [
            np.column_stack([right - inset, top + inset]),
            np.column_stack([right - inset, bottom - inset]),
            np.column_stack([left + inset, bottom - inset]),
            np.column_stack([left + inset, top + inset + spacing_mm]),
        ],
        axis=1,
    )
    corners = np.concatenate([[[left, top]], rounds.reshape(-1, 2)])
    steps = np.diff(corners, axis=0) @ [1, 1] * np.resize([1, 1, -1, -1], len(corners) - 1)
    blocked = np.flatnonzero(steps <= 0)
    return corners[: blocked[0] + 1] if len(blocked) else corners


LAYOUT: Final = Layout(
    summary="one line winding round in right angles",
    make=make,
    keys={"spacing": "75 mm", "start": "centre"},
)
