"""Rules that keep the work finite: refused before it is begun, not while it explodes."""

import math
from collections.abc import Iterator, Mapping
from typing import Final

import numpy as np
import shapely

from stitchpath.geometry.points import Points, path_length
from stitchpath.layouts import find_layout, motif_step
from stitchpath.model.piece import Piece
from stitchpath.model.project import Pocket, Project, Quilt, Quilting
from stitchpath.project.fault import Fault, Path, key_path
from stitchpath.project.placed import drawn_rings, laid_specs, placed_shapes
from stitchpath.project.wording import exact_text

MOST_STITCHES: Final = 10_000_000
"""Twenty-five times a king-size quilt in half-inch squares at 3 mm (about 400,000)."""

MOST_HOOPINGS: Final = 2_000
"""Of one piece; a king-size quilt in a field of 100 x 100 mm takes about 850."""

MOST_COPIES: Final = 50_000
"""Of the motifs of a project; a king-size quilt in motifs of one inch takes about 11,000."""

MOST_POINTS: Final = 3_000_000
"""Of all copies of all motifs, before they are sewn."""

MOST_CORNERS: Final = 100_000
"""Of the shapes of all areas and keep-outs; a drawn appliqué has about 1,000."""

MOST_MEETINGS: Final = 2_000_000
"""Pairs of sides of those shapes whose boxes meet: what takes shapes from one another looks at
each."""

_CROSSED: Final = 2
"""A layout of two crossing sets has twice the lines of one; the estimate takes the larger."""

_ARCS: Final = 5
"""Lines to a spacing where a layout has its own number of them."""

_POINTS_PER_WAVE: Final = 8


def stitches_are_few(project: Project) -> Iterator[Fault]:
    """The quilting of both pieces together comes to fewer needle points than the limit."""
    estimates = [
        (_needle_points(spec, *_size(spec, piece)), (*path, _cause(spec)))
        for path, spec, piece in laid_specs(project)
    ]
    total = sum(points for points, _ in estimates)
    if total <= MOST_STITCHES:
        return
    path: Path = max(estimates, key=lambda estimate: estimate[0])[1]
    yield Fault(
        code="too-many-stitches",
        path=path,
        message=f"the quilting comes to about {_rounded(total)} needle points",
        label=f"must come to at most {MOST_STITCHES:,}",
        notes=(f"most of them by `{key_path(path)}`",),
        help="make the spacing or the stitch length larger, or the area smaller",
    )


def copies_are_few(project: Project) -> Iterator[Fault]:
    """The motifs of a project are repeated less often than the limit."""
    copies: list[tuple[float, Path]] = []
    points = 0.0
    for path, spec, piece in laid_specs(project):
        if spec.layout == "motif" and spec.svg is not None:
            count = _copies(spec, *_size(spec, piece))
            copies.append((count, path))
            points += count * sum(map(len, spec.svg.strokes))
    total = sum(count for count, _ in copies)
    if total <= MOST_COPIES and points <= MOST_POINTS:
        return
    count, path = max(copies)
    many = total > MOST_COPIES
    yield Fault(
        code="too-many-repeats",
        path=(*path, "repeat"),
        message=f"the motif is repeated about {_rounded(count)} times"
        if many
        else f"the motif's copies come to about {_rounded(points)} points",
        label=f"must come to at most {MOST_COPIES if many else MOST_POINTS:,}",
        help="make the motif's `width` or the `gap` larger, or draw it with fewer points",
    )


def corners_are_few(project: Project) -> Iterator[Fault]:
    """Shapes of areas and keep-outs have few corners, and few sides that meet."""
    rings: list[Points] = []
    largest: tuple[int, Path] = (0, ())
    for place, shape, piece in placed_shapes(project):
        drawn = drawn_rings(shape, piece)
        rings += drawn
        largest = max(largest, (sum(map(len, drawn)), place))
        if sum(map(len, rings)) > MOST_CORNERS:
            yield _too_many_corners(largest[1], "come to more corners", MOST_CORNERS)
            return
    if _meetings(rings) > MOST_MEETINGS:
        yield _too_many_corners(largest[1], "meet or cross in more places", MOST_MEETINGS)


def _too_many_corners(path: Path, what: str, most: int) -> Fault:
    return Fault(
        code="too-many-corners",
        path=path,
        message=f"the shapes of areas and keep-outs {what} than can be worked out",
        label=f"must come to at most {most:,}",
        notes=(f"most of them by `{key_path(path)}`",),
        help="draw the shapes with fewer points, or leave some out",
    )


def _meetings(rings: list[Points]) -> int:
    """Return how many sides' boxes meet, or any number above the limit."""
    if sum(map(len, rings)) ** 2 <= MOST_MEETINGS:
        return 0
    ends = np.concatenate([np.stack([ring[:-1], ring[1:]], axis=1) for ring in rings])
    sides = np.asarray(shapely.linestrings(ends))
    tree = shapely.STRtree(sides)
    chunk = max(1, MOST_MEETINGS // len(sides))
    count = 0
    for start in range(0, len(sides), chunk):
        count += tree.query(sides[start : start + chunk]).shape[1]
        if count > MOST_MEETINGS:
            break
    return count


def _size(spec: Quilting, piece: Piece) -> tuple[float, float]:
    """Return the sides of the box that a layout is laid on, mm."""
    shape, box = spec.area, (0.0, 0.0, piece.width, piece.length)
    if shape is not None and shape.rectangle is not None:
        left, top, width, height = shape.rectangle
        box = (left, top, left + width, top + height)
    elif shape is not None and (rings := drawn_rings(shape, piece)):
        corners = np.concatenate(rings)
        box = (*corners.min(axis=0).tolist(), *corners.max(axis=0).tolist())
    elif shape is not None and shape.footprint and piece.shadow is not None:
        box = (*piece.shadow.min(axis=0).tolist(), *piece.shadow.max(axis=0).tolist())
    width = min(box[2], piece.width) - max(box[0], 0.0)
    return max(width, 0.0), max(min(box[3], piece.length) - max(box[1], 0.0), 0.0)


def _needle_points(spec: Quilting, width: float, length: float) -> float:
    """Return about how many needle points a layout takes, rather too many than too few."""
    if spec.layout == "motif":
        return _motif_length(spec) * _copies(spec, width, length) / spec.stitch_length
    layout = find_layout(spec.layout)
    if "spacing" not in layout.keys:
        return 0.0
    if "count" in layout.keys and layout.repeat is None:  # of the whole, not of each repeat
        return (spec.count or _ARCS) * math.hypot(width, length) / spec.stitch_length
    lines = (spec.count or _ARCS) if "count" in layout.keys else 1
    if "amplitude" in layout.keys:  # rows begin that far outside, so that waves fill the edge
        width, length = (side + 2 * (spec.amplitude or 0.0) for side in (width, length))
    points = _CROSSED * lines * width * length / (spec.spacing * spec.stitch_length)
    return points * _waves(spec, layout.keys)


def _waves(spec: Quilting, reads: Mapping[str, str]) -> float:
    """Return how much longer than a straight line a wave is, or how much finer it is drawn."""
    if "period" not in reads:
        return 1.0
    height, period = spec.amplitude or spec.spacing / 2, spec.period or 2 * spec.spacing
    return max(1 + 4 * height / period, _POINTS_PER_WAVE * spec.stitch_length / period)


def _copies(spec: Quilting, width: float, length: float) -> float:
    """Return about how often a motif is repeated on a box."""
    if spec.repeat == "single":
        return 1.0
    across, down = motif_step(spec)
    if spec.repeat == "border":
        return 2 * (width + length) / across + 4
    return (width / across + 2) * (length / down + 2)


def _motif_length(spec: Quilting) -> float:
    if spec.svg is None:
        return 0.0
    strokes = spec.svg.strokes
    width = float(np.ptp(np.concatenate(strokes)[:, 0]))
    scale = 1.0 if spec.width is None else spec.width / max(width, 1e-3)
    return scale * sum(map(path_length, strokes))


def _cause(spec: Quilting) -> str:
    return "repeat" if spec.layout == "motif" else "spacing"


def hoopings_are_few(project: Project) -> Iterator[Fault]:
    """Each piece takes fewer hoopings than the limit."""
    overlap, unit = project.hoopings.overlap, project.units
    field = max(project.machine.owned_fields, key=lambda sides: sides[0] * sides[1])
    steps = [side - overlap for side in field]
    if min(steps) <= 0:
        return  # said by another rule
    for piece in _pieces(project):
        count = math.ceil(piece.width * piece.length / (steps[0] * steps[1]))
        if count > MOST_HOOPINGS:
            size = " x ".join(exact_text(side, unit) for side in field)
            yield Fault(
                code="too-many-hoopings",
                path=("machine", "field"),
                message=f"the {_name(piece)} would take about {_rounded(count)} hoopings",
                label=f"must come to at most {MOST_HOOPINGS:,}",
                notes=(f"the field is {size}, joined with an overlap",),
                help="choose a larger field or a smaller overlap",
            )


def _pieces(project: Project) -> list[Quilt | Pocket]:
    return [project.quilt, *([project.pocket] if project.pocket is not None else [])]


def _name(piece: Quilt | Pocket) -> str:
    return "quilt" if isinstance(piece, Quilt) else "pocket"


def _rounded(count: float) -> str:
    """Return a count to two figures: an estimate that does not look like more."""
    digits = max(len(str(math.floor(count))) - 2, 0)
    return f"{round(count, -digits):,.0f}"
