"""Rules that keep the work finite: refused before it is begun, not while it explodes."""

import math
from collections.abc import Iterator
from typing import Final

import numpy as np
import shapely

from stitchpath.geometry.points import Points
from stitchpath.layouts import motif_step
from stitchpath.model.project import Project
from stitchpath.model.quilt import Pocket, Quilt, Quilting
from stitchpath.project.fault import Fault, Path, key_path
from stitchpath.project.placed import box_of, drawn_rings, laid_specs, placed_shapes
from stitchpath.project.wording import exact_text, rounded

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


def copies_are_few(project: Project) -> Iterator[Fault]:
    """The motifs of a project are repeated less often than the limit."""
    copies: list[tuple[float, Path]] = []
    points = 0.0
    for path, spec, piece in laid_specs(project):
        if spec.layout == "motif" and spec.svg is not None:
            count = count_motif_copies(spec, *box_of(spec, piece))
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
        message=f"the motif is repeated about {rounded(count)} times"
        if many
        else f"the motif's copies come to about {rounded(points)} points",
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
    if count_many_meetings(rings, most=MOST_MEETINGS) > MOST_MEETINGS:
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


def count_many_meetings(lines: list[Points], *, most: int) -> int:
    """Return how many boxes of segments meet, each pair twice, or any number above a limit.

    Args:
        lines: Polylines, shape (n, 2), mm.
        most: The limit; lines so few that they cannot come to it are not looked at.
    """
    few = sum(map(len, lines)) ** 2 <= most
    return 0 if few else count_meetings(lines, most=most)


def count_meetings(lines: list[Points], *, most: int) -> int:
    """Return how many boxes of segments meet, each pair twice, or any number above a limit.

    A line of one point has no segment.
    """
    ends = np.concatenate([np.stack([line[:-1], line[1:]], axis=1) for line in lines])
    sides = np.asarray(shapely.linestrings(ends))
    tree = shapely.STRtree(sides)
    chunk = max(1, most // max(1, len(sides)))  # a single point has no side
    count = 0
    for start in range(0, len(sides), chunk):
        count += tree.query(sides[start : start + chunk]).shape[1]
        if count > most:
            break
    return count


def count_motif_copies(spec: Quilting, width: float, length: float) -> float:
    """Return about how often a motif is repeated on a box."""
    if spec.repeat == "single":
        return 1.0
    across, down = motif_step(spec)
    if spec.repeat == "border":
        return 2 * (width + length) / across + 4
    return (width / across + 2) * (length / down + 2)


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
                message=f"the {_name(piece)} would take about {rounded(count)} hoopings",
                label=f"must come to at most {MOST_HOOPINGS:,}",
                notes=(f"the field is {size}, joined with an overlap",),
                help="choose a larger field or a smaller overlap",
            )


def _pieces(project: Project) -> list[Quilt | Pocket]:
    return [project.quilt, *([project.pocket] if project.pocket is not None else [])]


def _name(piece: Quilt | Pocket) -> str:
    return "quilt" if isinstance(piece, Quilt) else "pocket"
