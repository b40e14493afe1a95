"""One stage: its lines are laid, fields are placed, and hooping after hooping is sewn."""

from dataclasses import replace
from functools import partial
from typing import TypeAlias

from stitchpath.estimate import bobbins_for, count_stitches, expect_misses
from stitchpath.hoopings import mark_hoopings, place_hoopings
from stitchpath.layouts import lay_lines
from stitchpath.model.finding import Finding
from stitchpath.model.hooping import Hooping, Mark
from stitchpath.model.line import Line
from stitchpath.model.piece import StageTask
from stitchpath.model.plan import Figures, SewnHooping, Stage
from stitchpath.model.project import Project
from stitchpath.pipeline.each import Each
from stitchpath.route import find_costs, order_runs
from stitchpath.sewing import baste, count_designs, resampled, sew

_Placing: TypeAlias = tuple[Hooping, tuple[Line, ...], tuple[Mark, ...]]
"""A hooping, what it sews, and the marks that no earlier one of the stage has had."""


def plan_stage(
    task: StageTask, project: Project, known: tuple[Mark, ...], each: Each
) -> tuple[Stage, tuple[Finding, ...]]:
    """Return a stage, and what could not be done as asked.

    Args:
        task: What is sewn.
        project: What the maker measured and chose.
        known: Placement marks that are on the piece already.
        each: What orders and sews hooping after hooping, or several at a time.
    """
    laid = lay_lines(task, unit=project.units)
    task = replace(task, barriers=laid.barriers)
    lines = resampled(laid.lines, project.machine)
    placed = place_hoopings(task, lines, project)
    bare = [hooping for hooping, _ in placed.hoopings]
    marked = mark_hoopings(bare, task.piece, unit=project.units, known=known)
    parts = [parts for _, parts in placed.hoopings]
    placings = list(zip(marked, parts, _fresh_marks(marked), strict=True))
    hoopings = tuple(each(partial(_sew_hooping, task, project), placings))
    stage = Stage(
        name=task.name,
        piece=task.piece,
        thread=task.thread,
        thickness_mm=task.thickness_mm,
        layouts=laid.layouts,
        lines=lines,
        hoopings=hoopings,
        figures=sum((sewn.figures for sewn in hoopings), Figures()),
        bobbins=bobbins_for(
            [sewn.figures.bobbin_thread_mm for sewn in hoopings],
            project.machine.bobbin,
            tex=project.supplies.thread_tex,
        ),
        bound=placed.bound,
        joins=placed.joins,
        miss=expect_misses(
            marked, placed.joins, placing_error_mm=project.hoopings.placing_error
        ),
        barriers=task.barriers,
        designs=count_designs(laid.designs, hoopings),
    )
    return stage, (*laid.findings, *placed.findings)


def _fresh_marks(hoopings: tuple[Hooping, ...]) -> list[tuple[Mark, ...]]:
    """Return the marks of each hooping that no earlier one of the stage has had."""
    seen: set[str] = set()
    fresh: list[tuple[Mark, ...]] = []
    for hooping in hoopings:
        fresh.append(tuple(mark for mark in hooping.marks if mark.name not in seen))
        seen.update(mark.name for mark in hooping.marks)
    return fresh


def _sew_hooping(task: StageTask, project: Project, placing: _Placing) -> SewnHooping:
    """Return a hooping with its lines in order and in needle points."""
    hooping, lines, fresh = placing
    route = order_runs(
        lines,
        find_costs(project.route, project.machine),
        middle=task.piece.centre,
        edges=task.sewn_edges,
        barriers=task.barriers,
    )
    stitches, basting, basted_runs = baste(
        sew(route.runs, project.machine, draws_up=task.draws_up),
        hooping,
        project.machine,
        marks=fresh if project.hoopings.sew_marks else (),
        box_on=(task.piece.width, task.piece.length) if project.hoopings.basting_box else None,
    )
    figures = count_stitches(
        stitches,
        project.machine,
        project.times,
        runs=len(route.runs) + basted_runs,
        thickness_mm=task.thickness_mm,
    )
    return SewnHooping(
        hooping=hooping,
        runs=route.runs,
        route=route.figures,
        stitches=stitches,
        figures=figures,
        basting=basting,
    )
