"""Lines clipped to a region, through shapely."""

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.points import Points


def clip_lines(
    lines: list[Points], region: shapely.Polygon | shapely.MultiPolygon
) -> list[tuple[int, Points]]:
    """Return the parts of polylines that lie in a region, each with its line's index.

    Args:
        lines: Polylines, each of shape (n, 2), mm, n >= 2.
        region: A valid region; its border belongs to it.

    Returns:
        Parts in the order of the lines, and along each line; a line that only touches the
        region in a point gives none. Each part runs in its line's direction.
    """
    if not lines:
        return []
    shapes = [shapely.LineString(line) for line in lines]
    clipped = shapely.line_merge(shapely.intersection(shapes, region))
    parts, owners = shapely.get_parts(clipped, return_index=True)
    is_line = shapely.get_type_id(parts) == shapely.GeometryType.LINESTRING
    found: list[tuple[float, int, Points]] = []
    for part, owner in zip(parts[is_line], owners[is_line], strict=True):
        points = shapely.get_coordinates(part)
        at = shapely.line_locate_point(shapes[owner], shapely.points(points[[0, -1]]))
        if at[1] < at[0]:
            points, at = points[::-1], at[::-1]
        found.append((float(at[0]), int(owner), points))
    found.sort(key=lambda part: (part[1], part[0]))
    return [(owner, points) for _, owner, points in found]


def box_of(lines: list[Points]) -> NDArray[np.float64]:
    """Return x0, y0, x1, y1 of some polylines, mm; there is at least one."""
    points = np.concatenate(lines)
    return np.concatenate([points.min(axis=0), points.max(axis=0)])
