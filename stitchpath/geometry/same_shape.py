"""Shapes that are the same but for their place."""

from collections.abc import Iterable

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.nodes import cells_of


def shape_keys(shapes: Iterable[shapely.Geometry]) -> list[bytes]:
    """Return a key for each shape; those with the same one lie over one another when moved.

    Two shapes have one key only if, moved, no vertex of one is further from the other's than
    twice `MEETING_MM`. Not promised: that shapes which are the same have one key. Float noise
    can tell them apart, and so does a turn.

    Args:
        shapes: Valid, not empty.

    Cost: O(vertices log vertices), in whole arrays.

    Example:
        >>> one, moved, other = shapely.box(0, 0, 2, 3), shapely.box(5, 5, 7, 8), shapely.box(0, 0, 3, 2)
        >>> keys = shape_keys([one, moved, other])
        >>> keys[0] == keys[1], keys[0] == keys[2]
        (True, False)
    """
    copies: NDArray[np.object_] = np.array(list(shapes), dtype=np.object_)
    xy, of = shapely.get_coordinates(copies, return_index=True)
    low = shapely.bounds(copies)[:, :2]
    in_cells = shapely.set_coordinates(copies, cells_of(xy - low[of]).astype(np.float64))
    return list(shapely.to_wkb(shapely.normalize(in_cells)))
