"""Placement marks: crosses, and their names beside them."""

from collections.abc import Sequence

import numpy as np

from stitchpath.preview import strokes
from stitchpath.preview.colours import HOOP
from stitchpath.preview.labels import Room, place_label
from stitchpath.preview.look import Look
from stitchpath.preview.sewing_layers import NUMBER_SHARE
from stitchpath.preview.svg import Drawing, add_layer
from stitchpath.preview.tags import Tag, draw_tags, tag_extent

Named = tuple[str, tuple[float, float]]
"""A name and a place in the picture, mm."""


def draw_crosses(drawing: Drawing, places: Sequence[Named], look: Look) -> None:
    """Add placement marks."""
    layer = add_layer(drawing, "placement", "placement marks")
    strokes.draw_crosses(layer, np.array([at for _, at in places]).reshape(-1, 2), look)


def draw_cross_bars(drawing: Drawing, places: Sequence[Named], look: Look) -> None:
    """Add the bars of placement marks again, over the runs' ends, which would hide them."""
    layer = add_layer(drawing, "placement-bars", "placement marks, over ends of runs")
    strokes.draw_cross_bars(layer, np.array([at for _, at in places]).reshape(-1, 2), look)


def draw_cross_names(drawing: Drawing, places: Sequence[Named], look: Look, room: Room) -> None:
    """Add the names of placement marks, of those that have no room too."""
    layer = add_layer(drawing, "placement-names", "names of placement marks")
    size, gap = NUMBER_SHARE * look.sign, 0.3 * look.sign
    for _, at in places:
        _take_cross(at, look, room)
    tags = [
        Tag(words=name, where=where)
        for name, at in places
        if (where := place_label(at, tag_extent(name, size), room, gap=gap, must=True))
    ]
    draw_tags(layer, tags, size=size, colour=HOOP)


def _take_cross(at: tuple[float, float], look: Look, room: Room) -> None:
    """Keep names and numbers off a cross; between its arms they may stand."""
    (x, y), arm, half = at, 0.9 * look.sign, 0.1 * look.sign
    room.take((x - arm, y - half, x + arm, y + half))
    room.take((x - half, y - arm, x + half, y + arm))
