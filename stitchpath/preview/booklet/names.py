"""Where names and numbers stand in a hooping's picture: beside what they name, off all else."""

import math
from collections.abc import Sequence
from typing import Final

from stitchpath.geometry.points import Points
from stitchpath.preview.labels import Box, Room, widened
from stitchpath.preview.placement_layers import Named
from stitchpath.preview.tags import tag_extent

ARM: Final = 0.9
"""Of a mark's cross, as a share of the text's height."""
_WAYS: Final = ((1, 1), (1, -1), (-1, 1), (-1, -1), (1.6, 0), (0, 1.6), (-1.6, 0), (0, -1.6))
"""From a point to names beside it, 1 towards the picture's middle; straight on is farther."""


def taken_room(window: Box, marks: Sequence[Named], spots: Points, text: float) -> Room:
    """Return a picture's room without what is drawn there already.

    Args:
        window: The picture.
        marks: Placement marks, each a cross.
        spots: Middles of other signs, about as large as a letter.
        text: The text's height, mm.
    """
    room, arm, half = Room(cell=2 * text, within=window), ARM * text, 0.15 * text
    for x, y in spots.tolist():
        room.take(widened((x, y, x, y), 0.4 * text))
    for _, (x, y) in marks:
        room.take((x - arm, y - half, x + arm, y + half))
        room.take((x - half, y - arm, x + half, y + arm))
    return room


def name_beside(
    name: str, at: Sequence[tuple[float, float]], room: Room, *, off: float, size: float
) -> tuple[float, float]:
    """Find and take the place of a name beside one of the points that it names.

    Args:
        name: What is written.
        at: The points, the best first.
        room: What is taken already.
        off: From a point to the name's middle, across and along, mm.
        size: Height of the name, mm.

    Returns:
        The name's middle: from any point towards the picture's middle before it is outwards;
        so from the first point where none is free.
    """
    width, height = tag_extent(name, size)
    for same_corners in zip(*(_corners(point, off) for point in at), strict=True):
        for x, y in same_corners:
            box = (x - width / 2, y - height / 2, x + width / 2, y + height / 2)
            if room.is_free(box):
                room.take(widened(box, size))  # side by side, 3 and 4 would be read as 34
                return x, y
    return _corners(at[0], off)[0]


def _corners(point: tuple[float, float], off: float) -> list[tuple[float, float]]:
    """Return places round a point, across it before beside it, towards the middle first."""
    x, y = point
    across, along = -math.copysign(off, x), -math.copysign(off, y)
    return [(x + across * a, y + along * b) for a, b in _WAYS]
