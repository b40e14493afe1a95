"""Lines clipped to a region, stretch by stretch, so that a line may cross or retrace itself."""

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import SAME_POINT_MM

_AT_ONCE = 64  # segments whose place is looked up together


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

    Cost: O(vertices) tests against the prepared region, and an intersection for each segment
    that crosses its border.
    """
    if not lines:
        return []
    shapely.prepare(region)
    is_inside = shapely.covers(region, [shapely.LineString(line) for line in lines])
    parts: list[tuple[int, Points]] = []
    for owner, (line, inside) in enumerate(zip(lines, is_inside.tolist(), strict=True)):
        clipped = [line] if inside else _clip(line, region)
        parts += [(owner, part) for part in clipped]
    return parts


def _clip(line: Points, region: shapely.Polygon | shapely.MultiPolygon) -> list[Points]:
    ends = np.stack([line[:-1], line[1:]], axis=1)
    within, crossing = _sorted_out(line, region)
    pieces, owner = _cut(np.asarray(shapely.linestrings(ends[crossing])), region)
    owner = np.concatenate([crossing[owner], within])
    pieces = np.concatenate([pieces, ends[within]])
    if not len(owner):
        return []
    step = line[owner + 1] - line[owner]
    along = ((pieces - line[owner, None]) * step[:, None]).sum(axis=2)
    backwards = along[:, 0] > along[:, 1]
    pieces[backwards] = pieces[backwards, ::-1]
    pieces = pieces[np.lexsort((along.min(axis=1), owner))]
    return _joined(pieces)


def _sorted_out(
    line: Points, region: shapely.Polygon | shapely.MultiPolygon
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Return the segments inside a region, and those that cross its border or touch it.

    Stretches of `_AT_ONCE` segments are looked at first, and only what neither lies inside nor
    outside as a whole segment by segment.
    """
    starts = np.arange(0, len(line) - 1, _AT_ONCE)
    runs = [line[start : start + _AT_ONCE + 1] for start in starts.tolist()]
    shapes = [shapely.LineString(run) for run in runs]
    inside = shapely.covers(region, shapes)
    mixed = shapely.intersects(region, shapes) & ~inside
    count = len(line) - 1
    of_inside, of_mixed = (_segments_of(starts[some], count) for some in (inside, mixed))
    ends = np.stack([line[of_mixed], line[of_mixed + 1]], axis=1)
    segments = np.asarray(shapely.linestrings(ends))
    covered = shapely.covers(region, segments)
    crossing = shapely.intersects(region, segments) & ~covered
    return np.concatenate([of_inside, of_mixed[covered]]), of_mixed[crossing]


def _segments_of(starts: NDArray[np.intp], count: int) -> NDArray[np.intp]:
    """Return the segments of some stretches."""
    segments = (starts[:, None] + np.arange(_AT_ONCE)).ravel()
    return np.asarray(segments[segments < count])


def _cut(
    segments: NDArray[np.object_], region: shapely.Polygon | shapely.MultiPolygon
) -> tuple[NDArray[np.float64], NDArray[np.intp]]:
    """Return both ends of each part of segments inside a region, and whose part it is."""
    parts, owner = shapely.get_parts(shapely.intersection(segments, region), return_index=True)
    is_line = shapely.get_type_id(parts) == shapely.GeometryType.LINESTRING
    is_line &= shapely.length(parts) > 0
    parts, owner = parts[is_line], owner[is_line]
    first, last = shapely.get_point(parts, 0), shapely.get_point(parts, -1)
    ends = np.stack([shapely.get_coordinates(first), shapely.get_coordinates(last)], axis=1)
    return ends, owner


def _joined(pieces: NDArray[np.float64]) -> list[Points]:
    """Return polylines of pieces that follow on one another."""
    apart = np.abs(pieces[1:, 0] - pieces[:-1, 1]).max(axis=1) > SAME_POINT_MM
    groups = np.split(pieces, np.flatnonzero(apart) + 1)
    return [np.concatenate([group[:1, 0], group[:, 1]]) for group in groups]
