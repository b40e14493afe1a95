"""The layers under the thread: piece, pocket's shadow, designed lines."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely

from stitchpath.geometry.points import Points
from stitchpath.model.plan import Stage
from stitchpath.preview import strokes
from stitchpath.preview.labels import Box
from stitchpath.preview.look import Look
from stitchpath.preview.polylines import Polylines, clipped_all, simplified
from stitchpath.preview.svg import Drawing, add_layer


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ground:
    """What of a piece is seen in a picture, in the picture's frame."""

    cloth: Polylines
    outline: Polylines
    shadow: Polylines
    design: Polylines


def ground_of(
    stage: Stage, *, window: Box | None, place: Callable[[Points], Points] = lambda xy: xy
) -> Ground:
    """Return what of a stage's piece is seen.

    Args:
        stage: Gives the piece and the designed lines.
        window: What the picture shows, in its own frame; None for everything.
        place: Moves points into the frame of the picture.
    """
    lines = [part.placed(place) for part in _parts_of(stage)]
    outline = lines[0]
    if window is not None:
        lines = clipped_all(lines, window)
    return Ground(
        cloth=_cloth(outline.points, window),
        outline=lines[0],
        shadow=lines[1],
        design=simplified(lines[2], tolerance_mm=0.02),
    )


def draw_ground(drawing: Drawing, ground: Ground, look: Look) -> None:
    """Add the piece, the pocket's shadow and the designed lines."""
    piece = add_layer(drawing, "piece", "the piece")
    strokes.draw_cloth(piece, ground.cloth)
    strokes.draw_outline(piece, ground.outline, look)
    shadow = add_layer(drawing, "pocket", "where the pocket lies")
    strokes.draw_shadow(shadow, ground.shadow, look)
    design = add_layer(drawing, "design", "designed lines")
    strokes.draw_design(design, ground.design, look)


@lru_cache(maxsize=1)
def _parts_of(stage: Stage) -> tuple[Polylines, Polylines, Polylines]:
    """Return a stage's outline, its shadow and its designed lines, on the piece.

    Kept, since each of its hoopings shows some of them; of one stage alone, as what is kept
    keeps the stage with all its stitches.
    """
    shadow = [] if stage.piece.shadow is None else [_ring(stage.piece.shadow)]
    return (
        Polylines.of([_ring(stage.piece.outline)]),
        Polylines.of(shadow),
        Polylines.of(line.points for line in stage.lines),
    )


def _ring(outline: Points) -> Points:
    """Return an outline that ends where it began, whether it said so or not."""
    closed = bool((outline[0] == outline[-1]).all())
    return outline if closed else np.vstack([outline, outline[:1]])


def _cloth(ring: Points, window: Box | None) -> Polylines:
    area = shapely.make_valid(shapely.Polygon(ring))
    seen = area if window is None else area.intersection(shapely.box(*window))
    parts = [part for part in shapely.get_parts(seen) if isinstance(part, shapely.Polygon)]
    return Polylines.of(shapely.get_coordinates(part.exterior) for part in parts)
