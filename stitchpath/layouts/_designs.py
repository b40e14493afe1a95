"""Lays a stage's designs: stitch files in, lines out whose needle points are given.

Each run of a file becomes one line. Of a file's own order nothing is changed; a needle point
that has a thread cut on both sides holds nothing and is left out.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, path_length, segment_lengths
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.layouts._copies import Pose, copies_of, outline_of, pose_of
from stitchpath.model.design import Design, DesignFile, SewnDesign
from stitchpath.model.finding import Finding, Level
from stitchpath.model.line import FileRun, Line, LineKind
from stitchpath.model.piece import StageTask
from stitchpath.model.stitches import Op


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Run:
    """A run in its file: points, how each is come to, and its colour block from 0."""

    points: Points
    moved: NDArray[np.bool_]
    paused: NDArray[np.bool_]
    block: int
    stitch_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidDesigns:
    """What the designs of a stage came to.

    Attributes:
        lines: One for each run of each copy.
        designs: Each design's figures.
        findings: Which of them have no place.
        clear: Where no quilting may lie, or an empty shape.
    """

    lines: tuple[Line, ...]
    designs: tuple[SewnDesign, ...]
    findings: tuple[Finding, ...]
    clear: shapely.Geometry


def lay_designs(task: StageTask) -> LaidDesigns:
    """Return the lines of a stage's designs, their figures, and what they keep clear."""
    lines: list[Line] = []
    designs: list[SewnDesign] = []
    findings: list[Finding] = []
    clear: list[shapely.Geometry] = [shapely.Polygon()]
    copies = threads = 0
    for number, design in enumerate(task.designs):
        runs, pose = _runs(design.file), pose_of(design)
        places = copies_of(design, pose, task.piece, task.area)
        if not len(places):
            findings.append(_no_place(task, design))
        blocks = sorted({run.block for run in runs}) if design.colours == "stop" else [0]
        thread = {block: threads + at if at else 0 for at, block in enumerate(blocks)}
        threads += len(blocks) - 1
        file_runs = [
            FileRun(
                design=number,
                run=at,
                thread=thread.get(run.block, 0),
                moved=run.moved,
                paused=run.paused,
                scale=pose.scale,
            )
            for at, run in enumerate(runs)
        ]
        own = [
            _line(run, file_run, pose.about(run.points, place), copy)
            for copy, place in enumerate(places, start=copies)
            for run, file_run in zip(runs, file_runs, strict=True)
        ]
        copies += len(places)
        lines += own
        designs.append(_told(design, runs, pose, copies=len(places), blocks=blocks))
        if design.keep_clear > 0 and own:
            clear.append(_clear(own, design.keep_clear))
    return LaidDesigns(
        lines=tuple(lines),
        designs=tuple(designs),
        findings=tuple(findings),
        clear=shapely.union_all(clear),
    )


def _line(run: _Run, file_run: FileRun, points: Points, copy: int) -> Line:
    return Line(
        points=points,
        kind=LineKind.QUILTING,
        stitch_mm=run.stitch_mm,
        motif=copy,
        file_run=file_run,
    )


def _runs(file: DesignFile) -> list[_Run]:
    """Return the runs of a file: what is sewn between cuts and changes of colour."""
    stitches = file.stitches
    rows = np.flatnonzero(stitches.op == Op.STITCH)
    pauses = stitches.op == Op.PAUSE
    is_stop = np.zeros_like(pauses)
    is_stop[file.stops] = True
    cuts, jumps, stops, changes = (
        np.cumsum(which)[rows]
        for which in (
            stitches.op == Op.CUT,
            stitches.op == Op.JUMP,
            pauses & is_stop,
            pauses & ~is_stop,
        )
    )
    begins = np.flatnonzero((np.diff(cuts) > 0) | (np.diff(changes) > 0)) + 1
    moved, paused = (np.diff(column, prepend=column[0]) > 0 for column in (jumps, stops))
    moved[begins] = False
    points = stitches.xy[rows]
    return [
        _Run(
            points=points[own],
            moved=moved[own],
            paused=paused[own],
            block=int(changes[own[0]]),
            stitch_mm=_stitch_mm(points[own], moved[own]),
        )
        for own in np.split(np.arange(len(rows)), begins)
        if path_length(points[own]) > SAME_POINT_MM
    ]


def _stitch_mm(points: Points, moved: NDArray[np.bool_]) -> float:
    """Return the stitch of a run: the middle one of its stitches of some length."""
    lengths = segment_lengths(points)
    sewn = lengths[~moved[1:] & (lengths > SAME_POINT_MM)]
    return float(np.median(sewn if len(sewn) else lengths[lengths > SAME_POINT_MM]))


def _told(
    design: Design, runs: list[_Run], pose: Pose, *, copies: int, blocks: list[int]
) -> SewnDesign:
    file = design.file
    stitches = sum(len(run.points) for run in runs)
    width, height = np.ptp(outline_of(design, pose), axis=0).tolist()
    return SewnDesign(
        source=file.source,
        copies=copies,
        stitches=stitches,
        runs=len(runs),
        left_out=len(file.stitches.needle_points) - stitches,
        way=pose.way,
        size=(round(width, 1), round(height, 1)),
        colours=tuple(
            file.colours[block] if block < len(file.colours) else "" for block in blocks
        ),
        said=file.said,
    )


def _clear(lines: list[Line], by_mm: float) -> shapely.Geometry:
    """Return what lies nearer to lines than a distance, and all that this encloses."""
    near = shapely.union_all(
        shapely.buffer([shapely.LineString(line.points) for line in lines], by_mm)
    )
    return shapely.union_all([shapely.Polygon(part.exterior) for part in _parts(near)])


def _parts(region: shapely.Geometry) -> Iterator[shapely.Polygon]:
    for part in shapely.get_parts(region):
        if isinstance(part, shapely.Polygon):
            yield part


def _no_place(task: StageTask, design: Design) -> Finding:
    return Finding(
        code="design",
        level=Level.WARNING,
        text=f"no copy of {design.file.source} lies whole within its area",
        help="make it smaller, give it another area, or tell its columns and rows",
        stage=task.name,
        value=0.0,
        limit=1.0,
    )
