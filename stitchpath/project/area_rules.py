"""Rules on areas and keep-outs: that each shape is one, and leaves something to quilt."""

from collections.abc import Iterator

import shapely
from shapely.geometry.base import BaseGeometry

from stitchpath.layouts import area_of, find_layout
from stitchpath.model.piece import Piece
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilting
from stitchpath.model.shape import Shape
from stitchpath.project.fault import Fault, Path, key_path
from stitchpath.project.placed import drawn_rings, free_box, laid_specs, shapes_of
from stitchpath.project.size_rules import corners_are_few
from stitchpath.project.wording import length_text
from stitchpath.units import Unit


def areas_are_sound(project: Project) -> Iterator[Fault]:
    """Every shape encloses something, lies on its piece, and leaves something to quilt."""
    if any(corners_are_few(project)):
        return  # said by that rule; these would take too long
    for path, spec, piece in laid_specs(project):
        faults = [
            fault
            for place, shape in shapes_of(path, spec)
            for fault in shape_faults(place, shape, piece, project.units)
        ]
        yield from faults or _room(path, spec, piece, project)


def shape_faults(path: Path, shape: Shape, piece: Piece, unit: Unit) -> Iterator[Fault]:
    """Yield what is wrong with one shape; of a sound one the region can be worked out."""
    if shape.border is not None:
        yield from _border(path, shape.border, piece, unit)
    elif shape.footprint:
        yield from _footprint(path, piece)
    else:
        yield from _drawn(path, shape, piece, unit)


def _border(path: Path, border_mm: float, piece: Piece, unit: Unit) -> Iterator[Fault]:
    most = min(piece.width, piece.length) / 2
    if most <= border_mm:
        yield Fault(
            code="border-too-wide",
            path=(*path, "border"),
            message=f"a border of {length_text(border_mm, unit)} covers the whole {piece.name}",
            label=f"must be below {length_text(most, unit)}, half of the shorter side",
            help="make the border narrower, or leave `area` out for the whole piece",
        )


def _footprint(path: Path, piece: Piece) -> Iterator[Fault]:
    if piece.shadow is None:
        on_pocket = piece.name == "pocket"
        yield Fault(
            code="no-pocket",
            path=(*path, "footprint"),
            message="the pocket has no footprint on itself"
            if on_pocket
            else "there is no pocket whose footprint could be meant",
            label="is where the pocket lies on the quilt",
            help="leave `area` out for the whole pocket"
            if on_pocket
            else "add the table [pocket], or give a rectangle",
        )


def _drawn(path: Path, shape: Shape, piece: Piece, unit: Unit) -> Iterator[Fault]:
    """A rectangle, a polygon or a drawing."""
    form = "rectangle" if shape.rectangle else "polygon" if shape.polygon else "svg"
    rings = drawn_rings(shape, piece)
    place = (*path, form)
    if form != "rectangle" and not rings:
        yield Fault(
            code="no-closed-shape",
            path=place,
            message=f"no shape in the drawing of `{key_path(place)}` is closed",
            label="must have a shape whose line ends where it begins",
            help="close the path in the drawing program, or end its data with `Z`",
        )
        return
    for ring in rings:
        polygon = shapely.Polygon(ring)
        if not polygon.is_valid:
            yield _crossing(place, shapely.is_valid_reason(polygon), unit)
            return
    if shapely.intersection(area_of(shape, piece), shapely.Polygon(piece.outline)).area <= 0:
        yield Fault(
            code="area-outside",
            path=place,
            message=f"`{key_path(place)}` lies outside the {piece.name}",
            label=f"must lie on the {piece.name} at least in part",
            notes=("places are measured from the piece's top left corner",),
            help="move it, or take its places from the picture of the piece",
        )


def _crossing(path: Path, reason: str, unit: Unit) -> Fault:
    """Put into words what shapely says, such as `Self-intersection[12.5 40]`."""
    what, _, where = reason.partition("[")
    numbers = [round(float(number), 1) for number in where.rstrip("]").split()]
    place = ", ".join(length_text(number, unit) for number in numbers)
    touches = (
        "crosses or touches itself" if "intersection" in what.lower() else "encloses nothing"
    )
    return Fault(
        code="crossing-outline",
        path=path,
        message=f"the outline of `{key_path(path)}` {touches}",
        label="must enclose one area",
        notes=(f"near {place} from the top left corner",) if place else (),
        help="give the corners in the order in which they follow round the shape",
    )


def _room(path: Path, spec: Quilting, piece: Piece, project: Project) -> Iterator[Fault]:
    """The area, its margin and its keep-outs leave something, and the spacing fits in."""
    unit, box = project.units, free_box(project, piece)
    area = shapely.intersection(area_of(spec.area, piece), box)
    if spec.area is not None and area.area <= 0 < box.area:
        yield _nothing((*path, "area"), "the lines along the edges", "make the area larger")
        return
    inner = shapely.intersection(area, area_of(spec.area, piece).buffer(-spec.margin))
    if inner.area <= 0:
        if spec.area is not None:
            margin = length_text(spec.margin, unit)
            yield _nothing(
                (*path, "margin"), f"a margin of {margin}", "make the margin smaller"
            )
        return  # of a whole piece another rule says so
    kept = [area_of(shape, piece).buffer(spec.margin) for shape in spec.keep_out]
    if kept and shapely.difference(inner, shapely.union_all(kept)).area <= 0:
        yield _nothing((*path, "keep_out"), "its keep-outs", "make them smaller")
        return
    yield from _spacing(path, spec, area, unit)


def _spacing(path: Path, spec: Quilting, area: BaseGeometry, unit: Unit) -> Iterator[Fault]:
    """A chosen spacing is no larger than the area; the default may be."""
    left, top, right, bottom = area.bounds
    longest = max(right - left, bottom - top)
    if spec.spacing == Quilting().spacing or "spacing" not in find_layout(spec.layout).keys:
        return
    if longest < spec.spacing:
        yield Fault(
            code="spacing-too-large",
            path=(*path, "spacing"),
            message=f"the spacing is larger than the area: {length_text(spec.spacing, unit)}",
            label=f"must be at most {length_text(longest, unit)}, the area's longer side",
            help="make the spacing smaller or the area larger",
        )


def _nothing(path: Path, taker: str, help_: str) -> Fault:
    return Fault(
        code="no-area",
        path=path,
        message=f"nothing of the area is left to quilt inside {taker}"
        if path[-1] != "keep_out"
        else f"nothing of the area is left to quilt beside {taker}",
        label="takes all there is",
        help=help_,
    )
