"""The picture of a stage's designed lines alone, as a maker sees a finished quilt."""

from typing import Final

from stitchpath.model.plan import Stage
from stitchpath.preview.colours import CLOTH, INK
from stitchpath.preview.piece_layers import ground_of
from stitchpath.preview.polylines import simplified
from stitchpath.preview.svg import STITCH_GRID, Pen, add_layer, add_lines, new_drawing, written

_EDGE: Final = 0.01
"""Room round the piece, as a share of its longer side."""
_WEIGHT: Final = 0.0035
"""Width of a line, as a share of the piece's longer side: seen in a small picture too."""


def draw_design(stage: Stage) -> str:
    """Return a stage's piece and its designed lines as an SVG document at true scale.

    Lines are simplified by a tenth of their own width, so that the file stays small.
    """
    piece = stage.piece
    longer = max(piece.width, piece.length)
    edge, weight = _EDGE * longer, _WEIGHT * longer
    drawing = new_drawing((-edge, -edge, piece.width + 2 * edge, piece.length + 2 * edge))
    ground = ground_of(stage, window=None)
    layer = add_layer(drawing, "piece", "the piece")
    add_lines(layer, ground.cloth, Pen(fill=CLOTH, stroke=INK, width=weight / 2), closed=True)
    lines = simplified(ground.design, tolerance_mm=weight / 10)
    layer = add_layer(drawing, "design", "designed lines")
    add_lines(layer, lines, Pen(stroke=INK, width=weight), per_mm=STITCH_GRID)
    return written(drawing)
