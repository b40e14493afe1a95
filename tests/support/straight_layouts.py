"""Grounds for layouts of straight lines, and measures of what was laid on them."""

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.clip import clip_lines
from stitchpath.geometry.families import normal_vector
from stitchpath.geometry.points import Points
from stitchpath.layouts._layout import Ground, Strand


def rectangle_ground(width: float, height: float) -> Ground:
    """Return a ground that is an upright rectangle, its upper left corner at 0, 0."""
    return Ground(region=shapely.box(0, 0, width, height), frame=(0, 0, width, height))


def border_ground(width: float, height: float, border: float, *, margin: float = 0) -> Ground:
    """Return a ground that is a frame along the edges of a rectangle."""
    outer = shapely.box(0, 0, width, height).buffer(-margin, join_style="mitre")
    hole = shapely.box(0, 0, width, height).buffer(-border, join_style="mitre")
    region = outer.difference(hole.buffer(margin, join_style="mitre"))
    if not isinstance(region, shapely.Polygon | shapely.MultiPolygon):
        raise TypeError("a border is a polygon")
    return Ground(region=region, frame=(0, 0, width, height), border_mm=border)


def places(strands: tuple[Strand, ...], angle_deg: float) -> NDArray[np.float64]:
    """Return where the strands of one direction lie along its normal; others are left out."""
    normal = normal_vector(angle_deg)
    offsets = [strand.points @ normal for strand in strands]
    return np.array([offset.mean() for offset in offsets if np.ptp(offset) < 1e-9])


def clipped(strands: tuple[Strand, ...], ground: Ground) -> list[Points]:
    """Return what of the strands lies on their ground."""
    return [part for _, part in clip_lines([one.points for one in strands], ground.region)]


def anchors(strands: tuple[Strand, ...]) -> list[Points]:
    """Return the anchor strands' points, in order."""
    return [strand.points for strand in strands if strand.anchor]


def as_set(lines: list[Points], *, turned_about: tuple[float, float] | None = None) -> set[str]:
    """Return lines as rounded texts without a direction, perhaps after half a turn."""
    if turned_about is not None:
        lines = [2 * np.array(turned_about) - line for line in lines]
    return {min(_text(line), _text(line[::-1])) for line in lines}


def _text(line: Points) -> str:
    return str((line.round(4) + 0.0).tolist())
