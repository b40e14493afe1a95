"""Lays a stage's layouts on its area: strands in, designed lines and notes out."""

from collections.abc import Iterator
from dataclasses import dataclass

import shapely

from stitchpath.geometry.clip import clip_lines
from stitchpath.geometry.empty_circle import largest_empty_circle
from stitchpath.geometry.points import Points, path_length
from stitchpath.geometry.tolerance import GAP_MM
from stitchpath.layouts._designs import lay_designs
from stitchpath.layouts._grounds import find_barriers, find_grounds
from stitchpath.layouts._layout import Ground
from stitchpath.layouts._odd_gaps import odd_gap_notes
from stitchpath.layouts._placement import place_layout
from stitchpath.layouts._registry import find_layout
from stitchpath.layouts.text import HEIGHT_MM
from stitchpath.model.design import SewnDesign
from stitchpath.model.finding import Finding, Level
from stitchpath.model.line import Line, LineKind
from stitchpath.model.piece import StageTask
from stitchpath.model.plan import LaidLayout
from stitchpath.model.quilt import Quilting
from stitchpath.units import Unit

FEWEST_STITCHES = 3
"""A line of fewer stitches holds nothing: its two ties alone are as long. Common practice, no
source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """What was laid on a stage.

    Attributes:
        lines: Its designed lines.
        layouts: The layouts' figures.
        findings: Notes.
        barriers: Where no thread may lie across: the stage's own barriers and the keep-outs;
            None for none.
        designs: The designs' figures.
    """

    lines: tuple[Line, ...]
    layouts: tuple[LaidLayout, ...]
    findings: tuple[Finding, ...]
    barriers: shapely.Geometry | None = None
    designs: tuple[SewnDesign, ...] = ()


def lay_lines(task: StageTask, *, unit: Unit = "mm") -> Laid:
    """Return a stage's designed lines: designs, quilting, then edge, mouth and seam lines.

    Later layouts take their place from earlier ones. Lines that would only run along a sewn
    edge, or be too short to hold anything, are left out; a note says so.

    Args:
        task: What the stage is asked to sew.
        unit: In which notes tell lengths.
    """
    designs = lay_designs(task)
    lines = list(designs.lines)
    layouts: list[LaidLayout] = []
    findings = list(designs.findings)
    grounds = find_grounds(task, designs.clear)
    for spec, ground in zip(task.quilting, grounds, strict=True):
        if ground is None:
            findings.append(_no_place(task, spec))
            continue
        laid, notes = _lay(task, spec, ground, first_motif=_next_motif(lines))
        lines += laid
        findings += [*notes, *odd_gap_notes(ground, spec, stage=task.name, unit=unit)]
        layouts.append(_figures(spec, ground, laid))
    return Laid(
        lines=(*lines, *task.given),
        layouts=tuple(layouts),
        findings=tuple(findings),
        barriers=find_barriers(task, grounds),
        designs=designs.designs,
    )


def _next_motif(lines: list[Line]) -> int:
    return max((line.motif for line in lines if line.motif is not None), default=-1) + 1


def _lay(
    task: StageTask, spec: Quilting, ground: Ground, *, first_motif: int
) -> tuple[list[Line], list[Finding]]:
    layout = find_layout(spec.layout)
    placement, own = place_layout(ground, layout, spec)
    strands = layout.make(own, spec)
    beside_edge = task.sewn_edges.buffer(spec.stitch_length)
    shapely.prepare(beside_edge)
    lines: list[Line] = []
    short: list[Points] = []
    doubled: list[Points] = []
    on_piece = [placement.to_piece(strand.points) for strand in strands]
    for owner, points in clip_lines(on_piece, ground.region):
        if path_length(points) < FEWEST_STITCHES * spec.stitch_length:
            short.append(points)
        elif beside_edge.covers(shapely.LineString(points)):
            doubled.append(points)
        else:
            strand = strands[owner]
            lines.append(
                Line(
                    points=points,
                    kind=LineKind.QUILTING,
                    stitch_mm=spec.stitch_length,
                    anchor=strand.anchor,
                    motif=None if strand.motif is None else first_motif + strand.motif,
                )
            )
    notes = [*_left_out(task, short, doubled), *_ignored(task, spec)]
    return lines, notes


def _figures(spec: Quilting, ground: Ground, lines: list[Line]) -> LaidLayout:
    points = [line.points for line in lines]
    polygons = [part for part in shapely.get_parts(ground.region) if part.area > 0]
    circles = [
        largest_empty_circle(points, polygon, tolerance_mm=GAP_MM / 2) for polygon in polygons
    ]
    return LaidLayout(
        name=spec.layout,
        lines=len(lines),
        length_mm=sum(path_length(line) for line in points),
        widest_gap_mm=2 * max(circle.radius for circle in circles),
        spacing_mm=spec.spacing if "spacing" in find_layout(spec.layout).keys else 0.0,
        text=spec.text if spec.layout == "text" else "",
        height_mm=(spec.height or HEIGHT_MM) if spec.layout == "text" else 0.0,
    )


def _left_out(task: StageTask, short: list[Points], doubled: list[Points]) -> Iterator[Finding]:
    for parts, why in (
        (short, "too short to hold anything"),
        (doubled, "they would run along a sewn edge"),
    ):
        if parts:
            count = "1 line is" if len(parts) == 1 else f"{len(parts)} lines are"
            x, y = parts[0].mean(axis=0).tolist()
            yield Finding(
                code="line-left-out",
                level=Level.NOTE,
                text=f"{count} left out on the {task.piece.name}: {why}",
                stage=task.name,
                where=(x, y),
                value=float(len(parts)),
            )


def _ignored(task: StageTask, spec: Quilting) -> Iterator[Finding]:
    """Say what of a drawing is not sewn, once for each file."""
    shapes = (*([spec.area] if spec.area is not None else []), *spec.keep_out)
    drawings = [drawing for drawing in (spec.svg, *(s.svg for s in shapes)) if drawing]
    told = dict.fromkeys((drawing.source, drawing.ignored) for drawing in drawings)
    for source, ignored in told:
        if ignored:
            yield Finding(
                code="drawing-left-out",
                level=Level.NOTE,
                text=f"of the drawing {source} is left out: {'; '.join(ignored)}",
                stage=task.name,
            )


def _no_place(task: StageTask, spec: Quilting) -> Finding:
    others = "" if spec is task.quilting[-1] else "give the layouts after it an `area` each, "
    return Finding(
        code="line-left-out",
        level=Level.WARNING,
        text=f"the layout {spec.layout} has no place left on the {task.piece.name}",
        help=f"{others}make its margin smaller, give it another area, or leave it out",
        stage=task.name,
    )
