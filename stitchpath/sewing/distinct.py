"""Polylines without vertices that lie on one another."""

import numpy as np

from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.geometry.tolerance import SAME_POINT_MM


def distinct(points: Points) -> Points:
    """Return a polyline without vertices that lie on the one before; its ends stay."""
    moved = segment_lengths(points) > SAME_POINT_MM
    if moved.all():
        return points
    kept: Points = points[np.concatenate([[True], moved])]
    kept[-1] = points[-1]
    return kept
