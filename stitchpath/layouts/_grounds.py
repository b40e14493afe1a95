"""Where each layout of a piece may lie: its area, inside its margin, clear of keep-outs."""

import numpy as np
import shapely

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import MEETING_MM, NARROWEST_MM, SAME_POINT_MM
from stitchpath.layouts._layout import Ground, Region
from stitchpath.model.piece import Piece, StageTask
from stitchpath.model.quilt import Quilting
from stitchpath.model.shape import Shape

_NOTHING = shapely.Polygon()


def find_grounds(
    task: StageTask, clear: shapely.Geometry = _NOTHING
) -> tuple[Ground | None, ...]:
    """Return the ground of each of a stage's layouts; None where nothing is left of it.

    A ground is the layout's area, less its margin, the piece's edges, its keep-outs, and what
    later layouts take: their areas, margins and all; of a layout without an area of its own
    only where it may lie, so that an earlier one fills its margin.

    Args:
        task: The stage.
        clear: What designs keep clear of all layouts.
    """
    grounds: list[Ground | None] = []
    taken = clear
    for spec in reversed(task.quilting):
        area = area_of(spec.area, task.piece)
        free = shapely.intersection(task.area, area.buffer(-spec.margin, join_style="mitre"))
        for keep_out in spec.keep_out:
            kept = area_of(keep_out, task.piece)
            free = shapely.difference(free, kept.buffer(spec.margin, join_style="mitre"))
        region = _polygons(shapely.difference(free, taken))
        grounds.insert(0, None if region.is_empty else _ground(region, area, spec))
        own = free if spec.area is None else area
        # what lies on the border of two layouts belongs to the later one
        taken = shapely.union(taken, own.buffer(SAME_POINT_MM / 2, join_style="mitre"))
    return tuple(grounds)


def find_barriers(
    task: StageTask, grounds: tuple[Ground | None, ...]
) -> shapely.Geometry | None:
    """Return where no thread may lie across: a stage's own barriers and its keep-outs.

    Where another layout quilts inside a keep-out, thread may lie. So it may on the border of a
    keep-out, where lines end.

    Args:
        task: The stage.
        grounds: Where each of its layouts lies.
    """
    kept = [area_of(shape, task.piece) for spec in task.quilting for shape in spec.keep_out]
    if not kept:
        return task.barriers
    quilted = [ground.region for ground in grounds if ground is not None]
    clear = shapely.difference(shapely.union_all(kept), shapely.union_all(quilted))
    own = [] if task.barriers is None else [task.barriers]
    barriers = shapely.union_all([clear.buffer(-MEETING_MM, join_style="mitre"), *own])
    return None if barriers.is_empty else barriers


def area_of(shape: Shape | None, piece: Piece) -> Region:
    """Return a shape as a region on a piece; None is the whole piece.

    Example:
        >>> from stitchpath.pieces.outline import rectangle
        >>> piece = Piece(name="quilt", width=90, length=60, outline=rectangle(0, 0, 90, 60))
        >>> area_of(Shape(border=10), piece).area
        2600.0
    """
    whole = shapely.Polygon(piece.outline)
    if shape is None:
        return whole
    if shape.border is not None:
        inner = whole.buffer(-shape.border, join_style="mitre")
        return _polygons(shapely.difference(whole, inner))
    if shape.rectangle is not None:
        left, top, width, height = shape.rectangle
        return shapely.box(left, top, left + width, top + height)
    if shape.svg is not None:
        middle = shape.at or piece.centre
        return _drawn(place_drawing(shape.svg.strokes, width_mm=shape.width, middle=middle))
    corners = shape.polygon if shape.polygon is not None else piece.shadow
    return _NOTHING if corners is None else shapely.Polygon(corners)


def _drawn(rings: list[Points]) -> Region:
    """Return the region of closed strokes; a shape inside another is a hole in it."""
    closed = [shapely.Polygon(ring) for ring in rings if _is_closed(ring)]
    region: shapely.Geometry = _NOTHING
    for polygon in closed:
        region = shapely.symmetric_difference(region, polygon.buffer(0))
    return _polygons(region)


def place_drawing(
    strokes: tuple[Points, ...], *, width_mm: float | None, middle: tuple[float, float]
) -> list[Points]:
    """Return strokes scaled to a width, in proportion, the middle of their box at a place."""
    points = np.concatenate(strokes)
    low, high = points.min(axis=0), points.max(axis=0)
    scale = 1.0 if width_mm is None else width_mm / max(high[0] - low[0], 1e-9)
    return [(stroke - (low + high) / 2) * scale + middle for stroke in strokes]


def _is_closed(ring: Points) -> bool:
    return len(ring) > 3 and bool((ring[0] == ring[-1]).all())  # noqa: PLR2004 - a triangle


def _ground(region: Region, area: Region, spec: Quilting) -> Ground:
    frame = region.bounds if spec.fit else area.bounds
    border = None if spec.area is None else spec.area.border
    return Ground(region=region, frame=frame, border_mm=border)


def _polygons(geometry: shapely.Geometry) -> Region:
    """Return the polygons of a geometry; lines, points and slivers hold no quilting."""
    parts = [
        part
        for part in shapely.get_parts(geometry)
        if isinstance(part, shapely.Polygon) and not part.buffer(-NARROWEST_MM / 2).is_empty
    ]
    if len(parts) == 1:
        return parts[0]
    return shapely.MultiPolygon(parts) if parts else _NOTHING
