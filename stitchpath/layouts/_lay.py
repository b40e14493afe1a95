"""Lays a stage's layouts on its area: strands in, designed lines and notes out."""

from collections.abc import Iterator

import shapely

from stitchpath.geometry.clip import clip_lines
from stitchpath.geometry.points import Points, path_length
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.layouts._layout import Ground, Region
from stitchpath.layouts._registry import find_layout
from stitchpath.model.finding import Finding, Level
from stitchpath.model.line import Line, LineKind
from stitchpath.model.piece import StageTask
from stitchpath.model.project import Quilting

FEWEST_STITCHES = 3
"""A line of fewer stitches holds nothing: its two ties alone are as long. Common practice, no
source."""


def lay_lines(task: StageTask) -> tuple[tuple[Line, ...], tuple[Finding, ...]]:
    """Return a stage's designed lines: quilting lines, then its edge, mouth and seam lines.

    Later layouts take their place from earlier ones. Lines that would only run along a sewn
    edge, or be too short to hold anything, are left out; a note says so.
    """
    lines: list[Line] = []
    findings: list[Finding] = []
    for spec, region in zip(task.quilting, _regions(task), strict=True):
        laid, notes = _lay(task, spec, region)
        lines += laid
        findings += notes
    return (*lines, *task.given), tuple(findings)


def _regions(task: StageTask) -> list[Region]:
    """Return where each layout may lie: inside edges and its margin, outside later layouts.

    The border between two layouts belongs to the later one, so that no line on it is sewn by
    both.
    """
    outline = shapely.Polygon(task.piece.outline)
    regions: list[Region] = []
    taken: shapely.Geometry = shapely.Polygon()
    for spec in reversed(task.quilting):
        inside = outline.buffer(-spec.margin, join_style="mitre")
        free = shapely.intersection(task.area, inside)
        left = shapely.difference(free, taken)
        regions.insert(0, left if isinstance(left, Region) else shapely.Polygon())
        taken = shapely.union(taken, free.buffer(SAME_POINT_MM / 2, join_style="mitre"))
    return regions


def _lay(
    task: StageTask, spec: Quilting, region: Region
) -> tuple[list[Line], Iterator[Finding] | tuple[Finding, ...]]:
    if region.is_empty:
        text = f"the layout {spec.layout} has no place left on the {task.piece.name}"
        advice = "make the margin smaller, or leave the layout out"
        return [], (_note(task, text, None, level=Level.WARNING, advice=advice),)
    ground = Ground(region=region, frame=(0.0, 0.0, task.piece.width, task.piece.length))
    strands = find_layout(spec.layout).make(ground, spec)
    beside_edge = task.sewn_edges.buffer(spec.stitch_length)
    lines: list[Line] = []
    short: list[Points] = []
    doubled: list[Points] = []
    for owner, points in clip_lines([strand.points for strand in strands], region):
        if path_length(points) < FEWEST_STITCHES * spec.stitch_length:
            short.append(points)
        elif beside_edge.covers(shapely.LineString(points)):
            doubled.append(points)
        else:
            lines.append(
                Line(
                    points=points,
                    kind=LineKind.QUILTING,
                    stitch_mm=spec.stitch_length,
                    anchor=strands[owner].anchor,
                )
            )
    return lines, _left_out(task, short, doubled)


def _left_out(task: StageTask, short: list[Points], doubled: list[Points]) -> Iterator[Finding]:
    for parts, why in (
        (short, "too short to hold anything"),
        (doubled, "they would run along a sewn edge"),
    ):
        if parts:
            count = "1 line is" if len(parts) == 1 else f"{len(parts)} lines are"
            text = f"{count} left out on the {task.piece.name}: {why}"
            yield _note(task, text, parts[0])


def _note(
    task: StageTask,
    text: str,
    points: Points | None,
    *,
    level: Level = Level.NOTE,
    advice: str = "",
) -> Finding:
    where = None if points is None else tuple(points.mean(axis=0).tolist())
    return Finding(
        code="line-left-out", level=level, text=text, help=advice, stage=task.name, where=where
    )
