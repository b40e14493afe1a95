"""Lines split between the cells of a grid."""

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.paths import cut_path, distances_along, points_at
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.hoopings.grid import Grid
from stitchpath.model.line import Line

STUB_STITCHES = 2
"""A part of fewer stitches is given to a neighbour that reaches it. Common practice, no
source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A stretch of a line, by distances along it in mm, and the cell that sews it."""

    start: float
    end: float
    cell: int


def line_spans(line: Line, grid: Grid, *, overlap_mm: float) -> list[Span] | None:
    """Return the spans of a line and the cell that sews each; None if a whole part is cut.

    The spans are in the line's order and follow on one another without a gap.
    """
    spans = _absorb_stubs(line, _merged(_cell_spans(line, grid)), grid, overlap_mm)
    if line.whole:
        for span, part in zip(spans, cut_line(line, spans, overlap_mm=overlap_mm), strict=True):
            if not grid.is_reached(part.points, span.cell):
                return None
    return spans


def cut_line(line: Line, spans: list[Span], *, overlap_mm: float) -> list[Line]:
    """Return the part of a line for each of its spans, longer by half the overlap at joins."""
    if len(spans) == 1:
        return [line]
    bounds = np.array([(span.start, span.end) for span in spans])
    bounds[1:, 0] -= overlap_mm / 2
    bounds[:-1, 1] += overlap_mm / 2
    return [replace(line, points=points, whole=()) for points in cut_path(line.points, bounds)]


def _cell_spans(line: Line, grid: Grid) -> list[Span]:
    """Split at every border, but for what has to stay whole."""
    along = distances_along(line.points)
    cuts = np.concatenate(
        [[0.0, along[-1]], *(_crossings(line.points, along, grid, axis) for axis in (0, 1))]
    )
    wholes = [(along[first], along[last]) for first, last in line.whole]
    for start, end in wholes:
        cuts = np.concatenate([cuts[(cuts <= start) | (end <= cuts)], [start, end]])
    cuts = np.sort(cuts)
    cuts = cuts[np.concatenate([[True], np.diff(cuts) > SAME_POINT_MM])]
    cuts[-1] = along[-1]
    cells = grid.cells_of(points_at(line.points, (cuts[1:] + cuts[:-1]) / 2)).tolist()
    for (start, _), (first, last) in zip(wholes, line.whole, strict=True):
        corners = line.points[first : last + 1]
        middle = (corners.min(axis=0) + corners.max(axis=0)) / 2
        index = int(np.argmin(np.abs(cuts - start)))
        cells[index] = int(grid.cells_of(middle[None, :])[0])
    return [
        Span(start=start, end=end, cell=cell)
        for (start, end), cell in zip(pairwise(cuts.tolist()), cells, strict=True)
    ]


def _crossings(
    points: Points, along: NDArray[np.float64], grid: Grid, axis: int
) -> NDArray[np.float64]:
    """Return how far along the line it passes from one side of a border to the other.

    A point on a border lies on its far side, so a line that runs along a border or only
    touches it from there is not cut.
    """
    borders = grid.borders(axis)
    side = points[:, axis, None] - borders
    side[np.abs(side) < SAME_POINT_MM] = 0.0
    segment, border = np.nonzero((side[1:] >= 0) != (side[:-1] >= 0))
    before, after = side[segment, border], side[segment + 1, border]
    share = before / (before - after)
    return np.asarray(along[segment] + share * (along[segment + 1] - along[segment]))


def _merged(spans: list[Span]) -> list[Span]:
    merged = spans[:1]
    for span in spans[1:]:
        if span.cell == merged[-1].cell:
            merged[-1] = replace(merged[-1], end=span.end)
        else:
            merged.append(span)
    return merged


def _absorb_stubs(line: Line, spans: list[Span], grid: Grid, overlap_mm: float) -> list[Span]:
    """Give spans too short to sew well to a neighbour whose field reaches them."""
    stub_mm = max(overlap_mm, STUB_STITCHES * line.stitch_mm)
    for index, span in enumerate(spans):
        if span.end - span.start >= stub_mm or len(spans) == 1:
            continue
        reach = (span.start - overlap_mm / 2, span.end + overlap_mm / 2)
        (points,) = cut_path(line.points, np.array([reach]))
        for neighbour in spans[max(0, index - 1) : index + 2]:
            if neighbour.cell != span.cell and grid.is_reached(points, neighbour.cell):
                joined = [
                    *spans[:index],
                    replace(span, cell=neighbour.cell),
                    *spans[index + 1 :],
                ]
                return _absorb_stubs(line, _merged(joined), grid, overlap_mm)
    return spans
