"""Measures of layouts made of curves."""

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.clip import clip_lines
from stitchpath.geometry.curves import arc_points
from stitchpath.geometry.empty_circle import largest_empty_circle
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import FLATNESS_MM, SAME_POINT_MM
from stitchpath.layouts._layout import Ground, Strand

NEAR_MM = 3 * FLATNESS_MM
"""Two flattenings of one curve, with other vertices, are this near."""


def drawn(strands: tuple[Strand, ...], ground: Ground) -> shapely.MultiLineString:
    """Return what of the strands lies on their ground, as one geometry."""
    parts = clip_lines([strand.points for strand in strands], ground.region)
    return shapely.MultiLineString([part for _, part in parts])


def distance_apart(first: shapely.Geometry, second: shapely.Geometry) -> float:
    """Return how far a vertex of one drawing is from the other drawing at most, mm."""
    return max(_farthest(first, second), _farthest(second, first))


def _farthest(vertices: shapely.Geometry, drawing: shapely.Geometry) -> float:
    points = np.asarray(shapely.points(shapely.get_coordinates(vertices)))
    _, away = shapely.STRtree(_segments(drawing)).query_nearest(
        points, all_matches=False, return_distance=True
    )
    assert len(away) == len(points)
    return float(away.max())


def _segments(drawing: shapely.Geometry) -> NDArray[np.object_]:
    xy, of = shapely.get_coordinates(shapely.get_parts(drawing), return_index=True)
    ends = np.stack([xy[:-1], xy[1:]], axis=1)
    return np.asarray(shapely.linestrings(ends[of[:-1] == of[1:]]))


def half_turned(drawing: shapely.Geometry, ground: Ground) -> shapely.Geometry:
    """Return a drawing turned by 180 degrees about its ground's centre."""
    return shapely.transform(drawing, lambda xy: 2 * np.array(ground.centre) - xy)


def mirrored(drawing: shapely.Geometry, ground: Ground) -> shapely.Geometry:
    """Return a drawing with left and right exchanged about its ground's centre."""
    axis = np.array([2 * ground.centre[0], 0.0])
    return shapely.transform(drawing, lambda xy: axis + xy * (-1.0, 1.0))


def is_drawn(drawing: shapely.Geometry, points: Points) -> bool:
    """Return whether all points lie on a drawing."""
    return _farthest(shapely.LineString(points), drawing) <= FLATNESS_MM + SAME_POINT_MM


def circle(x: float, y: float, radius: float) -> Points:
    """Return points on a whole circle."""
    return arc_points((x, y), radius, 0.0, 2 * np.pi)


def sharpest_turn_deg(points: Points) -> float:
    """Return the sharpest turn of a line at a vertex."""
    heading = np.unwrap(np.arctan2(*np.diff(points, axis=0).T[::-1]))
    return float(np.degrees(np.abs(np.diff(heading)).max()))


def widest_gap(strands: tuple[Strand, ...], ground: Ground, inside: shapely.Polygon) -> float:
    """Return the diameter of the largest circle without a line, in a part of the ground."""
    assert ground.region.covers(inside)
    lines = [strand.points for strand in strands]
    return 2 * largest_empty_circle(lines, inside, tolerance_mm=0.01).radius
