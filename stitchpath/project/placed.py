"""Layouts and shapes as they lie on the pieces, for the rules on them."""

from collections.abc import Iterator

import numpy as np
import shapely

from stitchpath.geometry.points import Points
from stitchpath.layouts import place_drawing
from stitchpath.model.design import Design
from stitchpath.model.piece import Piece
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, Quilt, Quilting
from stitchpath.model.shape import Shape
from stitchpath.pieces.outline import rectangle
from stitchpath.project.fault import Path


def laid_specs(project: Project) -> Iterator[tuple[Path, Quilting, Piece]]:
    """Yield each layout of both pieces with its path and the piece that it lies on."""
    for piece, own in _pieces(project):
        for number, spec in enumerate(own.quilting):
            yield (piece.name, "quilting", number), spec, piece


def placed_designs(project: Project) -> Iterator[tuple[Path, Design, Piece]]:
    """Yield each design of both pieces with its path and the piece that it lies on."""
    for piece, own in _pieces(project):
        for number, design in enumerate(own.design):
            yield (piece.name, "design", number), design, piece


def placed_shapes(project: Project) -> Iterator[tuple[Path, Shape, Piece]]:
    """Yield every shape of layouts and designs with its path and its piece."""
    for path, spec, piece in laid_specs(project):
        for place, shape in shapes_of(path, spec):
            yield place, shape, piece
    for path, design, piece in placed_designs(project):
        if design.area is not None:
            yield (*path, "area"), design.area, piece


def shapes_of(path: Path, spec: Quilting) -> Iterator[tuple[Path, Shape]]:
    """Yield a layout's area and keep-outs, each with its path."""
    if spec.area is not None:
        yield (*path, "area"), spec.area
    for number, shape in enumerate(spec.keep_out):
        yield (*path, "keep_out", number), shape


def free_box(project: Project, piece: Piece) -> shapely.Polygon:
    """Return where anything may be quilted on a piece: inside its edge or seam lines."""
    pocket = project.pocket
    if piece.name == "quilt" or pocket is None:
        inset = top = project.quilt.edge_stitch
    else:
        inset, top = pocket.seam.inset, pocket.mouth_stitch
    right, bottom = piece.width - inset, piece.length - inset
    return shapely.box(min(inset, right), min(top, bottom), right, bottom)


def drawn_rings(shape: Shape, piece: Piece) -> list[Points]:
    """Return the closed outlines of a polygon or a drawing on a piece; none of others."""
    if shape.polygon is not None:
        return [np.array([*shape.polygon, shape.polygon[0]])]
    if shape.svg is None:
        return []
    placed = place_drawing(
        shape.svg.strokes, width_mm=shape.width, middle=shape.at or piece.centre
    )
    return [ring for ring in placed if len(ring) > 3 and (ring[0] == ring[-1]).all()]  # noqa: PLR2004 - a triangle


def box_of(spec: Quilting, piece: Piece) -> tuple[float, float]:
    """Return the sides of the box that a layout is laid on, inside its margin, mm."""
    shape, box = spec.area, (0.0, 0.0, piece.width, piece.length)
    if shape is not None and shape.rectangle is not None:
        left, top, width, height = shape.rectangle
        box = (left, top, left + width, top + height)
    elif shape is not None and (rings := drawn_rings(shape, piece)):
        corners = np.concatenate(rings)
        box = (*corners.min(axis=0).tolist(), *corners.max(axis=0).tolist())
    elif shape is not None and shape.footprint and piece.shadow is not None:
        box = (*piece.shadow.min(axis=0).tolist(), *piece.shadow.max(axis=0).tolist())
    width = min(box[2], piece.width) - max(box[0], 0.0) - 2 * spec.margin
    length = min(box[3], piece.length) - max(box[1], 0.0) - 2 * spec.margin
    return max(width, 0.0), max(length, 0.0)


def _pieces(project: Project) -> Iterator[tuple[Piece, Quilt | Pocket]]:
    quilt, pocket = project.quilt, project.pocket
    yield _piece("quilt", quilt.width, quilt.length, _footprint(project)), quilt
    if pocket is not None:
        yield _piece("pocket", pocket.width, pocket.length, None), pocket


def _piece(name: str, width: float, length: float, shadow: Points | None) -> Piece:
    return Piece(
        name=name,
        width=width,
        length=length,
        outline=rectangle(0, 0, width, length),
        shadow=shadow,
    )


def _footprint(project: Project) -> Points | None:
    """Return where the pocket lies on the quilt: centred, its foot raised."""
    pocket: Pocket | None = project.pocket
    if pocket is None:
        return None
    left = (project.quilt.width - pocket.width) / 2
    bottom = project.quilt.length - pocket.raise_
    return rectangle(left, bottom - pocket.length, left + pocket.width, bottom)
