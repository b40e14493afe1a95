"""Rules on drawings and texts that are sewn: that there is one, and it can be sewn."""

from collections.abc import Iterator

import numpy as np
import shapely

from stitchpath.geometry.points import path_length
from stitchpath.geometry.tolerance import NO_WIDTH_MM
from stitchpath.layouts import FEWEST_STITCHES, area_of, lacking_characters, lay_text
from stitchpath.layouts.text import HEIGHT_MM
from stitchpath.model.piece import Piece
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilting
from stitchpath.project.area_rules import shape_faults
from stitchpath.project.fault import Fault, Path, key_path
from stitchpath.project.placed import free_box, laid_specs, shapes_of
from stitchpath.project.size_rules import corners_are_few
from stitchpath.project.wording import length_text
from stitchpath.units import Unit

_MOST_NAMED = 5  # characters


def motifs_are_there(project: Project) -> Iterator[Fault]:
    """A motif has a drawing, a text has a text."""
    for path, spec, _ in laid_specs(project):
        for layout, key, given in (
            ("motif", "svg", spec.svg is not None),
            ("text", "text", bool(spec.text.strip())),
        ):
            if spec.layout == layout and not given:
                told = "an SVG file to sew" if key == "svg" else "what to write"
                yield Fault(
                    code="missing-key",
                    path=(*path, key),
                    message=f"the layout `{layout}` has no `{key}`",
                    label=f"must have a key `{key}`",
                    help=f"add `{key} = ...`, {told}",
                    at="table",
                )


def drawings_have_width(project: Project) -> Iterator[Fault]:
    """A drawing that is to be scaled to a width has one."""
    for path, spec, _ in laid_specs(project):
        given = [(path, spec.svg, spec.width)]
        given += [(place, shape.svg, shape.width) for place, shape in shapes_of(path, spec)]
        for place, drawing, width_mm in given:
            if drawing is None or width_mm is None:
                continue
            if np.ptp(np.concatenate(drawing.strokes)[:, 0]) < NO_WIDTH_MM:
                yield no_width(place, "drawing", of="strokes", instead="draw")


def no_width(path: Path, what: str, *, of: str, instead: str) -> Fault:
    """Return the fault of what is to be scaled to a width and has none.

    Args:
        path: Of the table with the key `width`.
        what: A drawing or a design.
        of: What it consists of.
        instead: What a maker can do with it in its own size.
    """
    return Fault(
        code="drawing-has-no-width",
        path=(*path, "width"),
        message=f"the {what} has no width that could be scaled",
        label=f"all its {of} lie on one upright line",
        help=f"leave `width` out, and {instead} it in its own size",
    )


def texts_can_be_sewn(project: Project) -> Iterator[Fault]:
    """The font has every letter of a text, which is large enough and lies on its area."""
    if any(corners_are_few(project)):
        return
    for path, spec, piece in laid_specs(project):
        if spec.layout != "text" or not spec.text.strip():
            continue
        if lacking := lacking_characters(spec.text):
            yield _lacking((*path, "text"), lacking)
            continue
        yield from _too_small(path, spec, project.units)
        area = spec.area
        if area is None or not any(shape_faults(path, area, piece, project.units)):
            yield from _too_long(path, spec, piece, project)


def _lacking(path: Path, lacking: tuple[str, ...]) -> Fault:
    named = ", ".join(
        f"`{c}`" if c.isprintable() else f"U+{ord(c):04X}" for c in lacking[:_MOST_NAMED]
    )
    more = f" and {len(lacking) - _MOST_NAMED} more" if len(lacking) > _MOST_NAMED else ""
    return Fault(
        code="not-in-font",
        path=path,
        message=f"the font has no letters for {named}{more}",
        label="must be letters without accents, figures and signs",
        help="spell it without them, or draw it and use the layout `motif`",
    )


def _too_small(path: Path, spec: Quilting, unit: Unit) -> Iterator[Fault]:
    strokes = lay_text(spec, (0.0, 0.0))
    shortest, least = min(map(path_length, strokes)), FEWEST_STITCHES * spec.stitch_length
    if shortest < least:
        yield Fault(
            code="text-too-small",
            path=(*path, "height"),
            message=(
                f"a stroke of the letters is {length_text(round(shortest, 1), unit)} long,"
                f" and {FEWEST_STITCHES} stitches are {length_text(least, unit)}"
            ),
            label=f"must be at least {length_text(_needed(spec, least / shortest), unit)}",
            help="make `height` larger or `stitch_length` smaller",
        )


def _needed(spec: Quilting, factor: float) -> float:
    return float(np.ceil((spec.height or HEIGHT_MM) * factor))


def _too_long(path: Path, spec: Quilting, piece: Piece, project: Project) -> Iterator[Fault]:
    area = shapely.intersection(area_of(spec.area, piece), free_box(project, piece))
    if area.is_empty:
        return  # said by another rule
    left, top, right, bottom = area_of(spec.area, piece).bounds
    points = np.concatenate(lay_text(spec, ((left + right) / 2, (top + bottom) / 2)))
    low, high = points.min(axis=0), points.max(axis=0)
    room = np.reshape(area.bounds, (2, 2)) + np.array([[spec.margin], [-spec.margin]])
    if (low < room[0]).any() or (room[1] < high).any():
        size, most = (
            " x ".join(length_text(round(float(side), 1), project.units) for side in sides)
            for sides in (high - low, np.maximum(room[1] - room[0], 0.0))
        )
        yield Fault(
            code="text-does-not-fit",
            path=(*path, "text"),
            message=f"`{key_path((*path, 'text'))}` reaches past its area: it takes {size}",
            label=f"must lie within {most}",
            help="make `height` smaller, write less, or move it by `at`",
        )
