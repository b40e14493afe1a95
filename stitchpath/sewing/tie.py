"""Ties: the few short stitches that lock a run's start and end.

Two short stitches forward along the line, one and a half back, then on: no hole is used twice
and nothing is sewn on the spot. Number and length: 3 to 4 stitches of 0.7 to 1.0 mm, common
practice, no source.
"""

import numpy as np

from stitchpath.geometry.paths import points_at
from stitchpath.geometry.points import Points, path_length

TIE_STITCH_MM = 0.9
TIE_WALK = (1.0, 2.0, 0.5)
"""Where the needle goes down, in tie stitches from the end of the line."""
TIE_REACH_MM = TIE_STITCH_MM * max(TIE_WALK)


def tie_points(points: Points) -> Points:
    """Return the extra needle points after a path's first one, shape (3, 2), mm.

    Args:
        points: Needle points of the path from the end to lock, shape (n, 2), n >= 2. On a path
            too short for them the stitches shrink, to a quarter of its length.
    """
    near = points[:8]
    step = min(TIE_STITCH_MM, path_length(near) / 4)
    return points_at(near, np.array(TIE_WALK) * step)
