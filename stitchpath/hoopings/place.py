"""Chooses how a stage is divided over hoopings, and in which order they are done."""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from typing import TypeAlias

import numpy as np

from stitchpath.catalog.fields import smallest_field
from stitchpath.geometry.clip import box_of
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import ROUNDING_MM, SAME_POINT_MM
from stitchpath.hoopings.grid import Grid, even_grid, reach_of
from stitchpath.hoopings.marks import place_marks
from stitchpath.hoopings.split import Span, cut_line, line_spans
from stitchpath.model.finding import Finding, Level
from stitchpath.model.hooping import Hooping
from stitchpath.model.line import Line
from stitchpath.model.piece import StageTask
from stitchpath.model.project import Machine, Project
from stitchpath.units import format_length

Placed: TypeAlias = tuple[Hooping, tuple[Line, ...]]
"""A hooping and the parts of lines that it sews."""

MOST_EXTRA_CELLS = 3
"""How many more columns or rows are tried, so that no border cuts a corner triangle."""


def place_hoopings(
    task: StageTask, lines: tuple[Line, ...], project: Project
) -> tuple[tuple[Placed, ...], tuple[Finding, ...]]:
    """Return a stage's hoopings in the order of sewing, middle first, with what each sews.

    An even grid of fields is laid over the lines, upright or turned by 90 degrees, whichever
    needs fewer; empty places are skipped. All lines are sewn, once and within half the overlap
    of a join twice. If a part that must stay whole is larger than the field, there are no
    hoopings and the finding says by how much.
    """
    if not lines:
        return (), ()
    choices = list(_choices(lines, project))
    if not choices:
        return (), (_too_large(task, lines, project),)
    grid, spans = min(choices, key=lambda choice: (_cell_count(choice[1]), choice[0].turn_deg))
    cells = _divide(lines, spans, project.hoopings.overlap)
    order = sorted(cells, key=lambda cell: _from_middle(grid.centre(cell), task))
    return tuple(
        (_hooping(number, grid, cell, task, project.machine), tuple(cells[cell]))
        for number, cell in enumerate(order, start=1)
    ), ()


def _choices(
    lines: tuple[Line, ...], project: Project
) -> Iterator[tuple[Grid, list[list[Span]]]]:
    """Yield the coarsest workable grid of each turn, with the spans of every line."""
    box = box_of([line.points for line in lines])
    overlap_mm = project.hoopings.overlap
    for turn_deg in _turns(project):
        reach = reach_of(project.machine.field, turn_deg=turn_deg)
        more = range(MOST_EXTRA_CELLS + 1)
        for extra in sorted(product(more, more), key=sum):
            grid = even_grid(
                box, reach=reach, overlap_mm=overlap_mm, turn_deg=turn_deg, extra=extra
            )
            spans = [line_spans(line, grid, overlap_mm=overlap_mm) for line in lines]
            workable = [of_line for of_line in spans if of_line is not None]
            if len(workable) == len(lines):
                yield grid, workable
                break


def _cell_count(spans: list[list[Span]]) -> int:
    return len({span.cell for of_line in spans for span in of_line})


def _divide(
    lines: tuple[Line, ...], spans: list[list[Span]], overlap_mm: float
) -> dict[int, list[Line]]:
    """Return what each cell sews."""
    cells: dict[int, list[Line]] = defaultdict(list)
    for line, of_line in zip(lines, spans, strict=True):
        for span, part in zip(
            of_line, cut_line(line, of_line, overlap_mm=overlap_mm), strict=True
        ):
            cells[span.cell].append(part)
    return cells


def _from_middle(centre: tuple[float, float], task: StageTask) -> tuple[float, float, float]:
    away = np.hypot(centre[0] - task.piece.centre[0], centre[1] - task.piece.centre[1])
    return round(float(away) / SAME_POINT_MM), centre[1], centre[0]


def _hooping(number: int, grid: Grid, cell: int, task: StageTask, machine: Machine) -> Hooping:
    bare = Hooping(
        number=number, field=machine.field, centre=grid.centre(cell), turn_deg=grid.turn_deg
    )
    return replace(bare, marks=place_marks(bare, task.piece))


def _too_large(task: StageTask, lines: tuple[Line, ...], project: Project) -> Finding:
    """Say by how much what must stay whole is larger than the field, and what would hold it."""
    part = max(_whole_parts(lines), key=lambda points: float(np.ptp(points, axis=0).max()))
    width, height = np.ptp(part, axis=0).tolist()
    field, may_turn, unit = project.machine.field, project.hoopings.turn, project.units
    need = f"{format_length(width, unit)} x {format_length(height, unit)}"
    have = f"{format_length(field[0], unit)} x {format_length(field[1], unit)}"
    over = min(
        max(width - reach[0], height - reach[1])
        for reach in (reach_of(field, turn_deg=turn_deg) for turn_deg in _turns(project))
    )
    holder = smallest_field(width + ROUNDING_MM, height + ROUNDING_MM, may_turn=may_turn)
    text = f"a part of {need} must be sewn in one hooping, and the field of {have}"
    advice = "use a larger field, or make the part smaller"
    if over > 0 and holder is not None:
        advice = f"use a field of at least {holder.name} mm, or make the part smaller"
    return Finding(
        code="hoop-fit",
        level=Level.ERROR,
        text=f"{text} is too small by {format_length(over, unit)}"
        if over > 0
        else f"{text} holds it, but not in an even grid with the other lines",
        help=advice,
        stage=task.name,
        where=tuple(part.mean(axis=0).tolist()),
        value=over,
        limit=0.0,
    )


def _whole_parts(lines: tuple[Line, ...]) -> list[Points]:
    return [line.points[first : last + 1] for line in lines for first, last in line.whole]


def _turns(project: Project) -> tuple[float, ...]:
    return (0.0, 90.0) if project.hoopings.turn else (0.0,)
