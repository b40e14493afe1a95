"""Lines clipped to a region, stretch by stretch, so that a line may cross or retrace itself."""

from typing import TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.paths import Paths, ranges
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import SAME_POINT_MM

_Region: TypeAlias = shapely.Polygon | shapely.MultiPolygon

_AT_ONCE = 64  # segments whose place is looked up together


def clip_lines(lines: list[Points], region: _Region) -> list[tuple[int, Points]]:
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
    paths = Paths.of(lines)
    is_inside = shapely.covers(region, paths.shapes())
    pieces, owner = _pieces(paths, np.flatnonzero(~is_inside[paths.owners]), region)
    bounds = np.searchsorted(owner, np.arange(len(lines) + 1)).tolist()
    parts: list[tuple[int, Points]] = []
    for number, (line, inside) in enumerate(zip(lines, is_inside.tolist(), strict=True)):
        own = pieces[bounds[number] : bounds[number + 1]]
        parts += [(number, part) for part in ([line] if inside else _joined(own))]
    return parts


def _pieces(
    paths: Paths, segments: NDArray[np.intp], region: _Region
) -> tuple[NDArray[np.float64], NDArray[np.intp]]:
    """Return both ends of each piece of some segments in a region, and whose piece it is.

    Pieces are in the order of the paths, and along each, shape (n, 2, 2); paths shape (n,).
    """
    if not len(segments):
        return np.empty((0, 2, 2)), np.empty(0, dtype=np.intp)
    ends = paths.segments
    within, crossing = _sorted_out(paths, segments, region)
    pieces, owner = _cut(np.asarray(shapely.linestrings(ends[crossing])), region)
    segment = np.concatenate([crossing[owner], within])
    pieces = np.concatenate([pieces, ends[within]])
    start, step = ends[segment, :1], ends[segment, 1:] - ends[segment, :1]
    along = ((pieces - start) * step).sum(axis=2)
    backwards = along[:, 0] > along[:, 1]
    pieces[backwards] = pieces[backwards, ::-1]
    order = np.lexsort((along.min(axis=1), segment))
    return pieces[order], paths.owners[segment[order]]


def _sorted_out(
    paths: Paths, segments: NDArray[np.intp], region: _Region
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """Return the segments inside a region, and those that cross its border or touch it.

    Stretches of `_AT_ONCE` segments are looked at first, and only what neither lies inside nor
    outside as a whole segment by segment.
    """
    heads = paths.heads
    place = heads[segments] - paths.starts[paths.owners[segments]]
    first = np.flatnonzero(place % _AT_ONCE == 0)
    counts = np.diff(np.append(first, len(segments)))
    shapes = shapely.linestrings(
        paths.xy[ranges(heads[segments[first]], counts + 1)],
        indices=np.repeat(np.arange(len(first)), counts + 1),
    )
    inside = shapely.covers(region, shapes)
    mixed = shapely.intersects(region, shapes) & ~inside
    of_inside, of_mixed = (segments[np.repeat(some, counts)] for some in (inside, mixed))
    lines = np.asarray(shapely.linestrings(paths.segments[of_mixed]))
    covered = shapely.covers(region, lines)
    crossing = shapely.intersects(region, lines) & ~covered
    return np.concatenate([of_inside, of_mixed[covered]]), of_mixed[crossing]


def _cut(
    segments: NDArray[np.object_], region: _Region
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
    if len(pieces) <= 1:
        return list(pieces)
    apart = np.abs(pieces[1:, 0] - pieces[:-1, 1]).max(axis=1) > SAME_POINT_MM
    groups = np.split(pieces, np.flatnonzero(apart) + 1)
    return [np.concatenate([group[:1, 0], group[:, 1]]) for group in groups]
