"""Where some segments are crossed or met by others."""

from math import radians, sin

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.tolerance import CROSSING_DEG, MEETING_MM

Segments = NDArray[np.float64]
"""Shape (n, 2, 2): both ends, x and y in mm."""


def meetings_on(
    segments: Segments, others: Segments
) -> tuple[NDArray[np.intp], NDArray[np.intp], NDArray[np.float64]]:
    """Return which segments meet which others, and how far along the first that is, in mm.

    Lines that touch or end on one another meet; those that run along one another do not.

    Args:
        segments: What is met, shape (n, 2, 2), none of length 0.
        others: What meets it, shape (m, 2, 2), none of length 0.

    Returns:
        Three arrays of one length: rows of `segments`, rows of `others`, distances.

    Cost: O((n + m + pairs) log m).

    Example:
        >>> across = np.array([[[0.0, 0.0], [10.0, 0.0]]])
        >>> down = np.array([[[4.0, -1.0], [4.0, 9.0]], [[12.0, -1.0], [12.0, 9.0]]])
        >>> [found.tolist() for found in meetings_on(across, down)]
        [[0], [0], [4.0]]
    """
    tree = shapely.STRtree(np.asarray(shapely.linestrings(others)))
    one, other = tree.query(
        shapely.linestrings(segments), predicate="dwithin", distance=MEETING_MM
    )
    way, cross_way = segments[one, 1] - segments[one, 0], others[other, 1] - others[other, 0]
    offset = others[other, 0] - segments[one, 0]
    length = np.hypot(*way.T)
    cross = way[:, 0] * cross_way[:, 1] - way[:, 1] * cross_way[:, 0]
    sine = np.abs(cross) / (length * np.hypot(*cross_way.T))
    across = sine >= sin(radians(CROSSING_DEG))
    turned = offset[:, 0] * cross_way[:, 1] - offset[:, 1] * cross_way[:, 0]
    along = np.clip(turned[across] / cross[across], 0.0, 1.0) * length[across]
    return one[across], other[across], along
