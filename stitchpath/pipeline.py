"""The whole tool in one function: a project in, a plan out. Pure: no files, clock or chance."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import replace
from functools import partial
from typing import Protocol, TypeVar

from stitchpath.checks import cautions, check_plan, ring_overhang
from stitchpath.estimate import (
    bobbins_for,
    count_stitches,
    cut_list,
    estimate_plan,
    expect_misses,
)
from stitchpath.hoopings import (
    lay_on_piece,
    mark_hoopings,
    place_hoopings,
    split_stitches,
)
from stitchpath.layouts import lay_lines
from stitchpath.model.finding import Finding
from stitchpath.model.hooping import Hooping, Mark
from stitchpath.model.line import Line
from stitchpath.model.piece import Piece, StageTask
from stitchpath.model.plan import FieldAlone, Figures, Plan, SewnHooping, Stage
from stitchpath.model.project import Machine, PocketSeam, Project, Quilt, ThreadPair
from stitchpath.model.route import RouteFigures
from stitchpath.model.stitches import Op, Stitches
from stitchpath.pieces import Hand, make_corner_task, make_tasks
from stitchpath.route import find_costs, order_runs
from stitchpath.sewing import baste, count_designs, resampled, sew

_Thing = TypeVar("_Thing")
_Made = TypeVar("_Made")


class Each(Protocol):
    """What makes something of each of several things, in order: `map`, or several processes."""

    def __call__(
        self, make: Callable[[_Thing], _Made], things: Sequence[_Thing], /
    ) -> Iterable[_Made]:
        """Return what is made of each thing; none depends on another."""
        ...


def plan(project: Project, *, each: Each = map) -> Plan:
    """Return everything that is decided about a project.

    The same project gives the same plan. A plan with an error finding is whole but must not be
    sewn; `Plan.has_errors` says so.

    Args:
        project: What the maker measured and chose.
        each: What orders and sews hooping after hooping, or several at a time.

    Example:
        >>> from stitchpath.model.project import Quilt
        >>> throw = plan(Project(quilt=Quilt(width=900, length=1200)))
        >>> [stage.name for stage in throw.stages], throw.has_errors
        (['quilt'], False)
    """
    return _plan_tasks(make_tasks(project), project, each)


def compare_fields(planned: Plan, *, each: Each = map) -> Plan:
    """Return a plan that tells what each of several fields would need by itself.

    That is planned once more for each of them; of a single field there is nothing to compare.

    Args:
        planned: What is told of.
        each: As for `plan`.
    """
    machine = planned.project.machine
    if len(machine.owned_fields) == 1:
        return planned
    alone = tuple(
        _alone(field, replace(planned.project, machine=replace(machine, fields=(field,))), each)
        for field in machine.owned_fields
    )
    return replace(planned, fields_alone=alone)


def plan_corner(seam: PocketSeam, machine: Machine, *, hand: Hand, thickness_mm: float) -> Plan:
    """Return the plan of one reinforcing triangle by itself, a seam like that of a pocket.

    Args:
        seam: The triangle's legs, passes, stitch length and thread.
        machine: What sews it.
        hand: Which end of the mouth.
        thickness_mm: Of everything that is sewn through, quilt and pocket.
    """
    draws_up = machine.bobbin_pull_up != "never"
    task = make_corner_task(seam, hand=hand, thickness_mm=thickness_mm, draws_up=draws_up)
    scrap = Quilt(width=task.piece.width, length=task.piece.length, quilting=())
    planned = _plan_tasks((task,), Project(name="Corner", quilt=scrap, machine=machine), map)
    # the scrap's edges are made up, so nothing is known of what lies beyond them
    said = tuple(found for found in planned.findings if found.code != ring_overhang.CODE)
    return replace(planned, findings=said)


def _alone(field: tuple[float, float], project: Project, each: Each) -> FieldAlone:
    planned = plan(project, each=each)
    if planned.has_errors:
        return FieldAlone(field=field)
    return FieldAlone(
        field=field,
        hoopings=sum(len(stage.hoopings) for stage in planned.stages),
        seconds=planned.figures.seconds,
        handling=sum(one.handling for one in planned.estimate.work),
    )


def plan_stitches(
    stitches: Stitches, machine: Machine, *, name: str, thickness_mm: float
) -> Plan | None:
    """Return the plan of stitches that are there already, divided to fit a machine's field.

    They lie on a piece just larger than they are, and no needle point moves on it.

    Args:
        stitches: In a frame of their own, mm; at most 9 m wide and long.
        machine: Its field, formats, speed and bobbin.
        name: What the plan is called.
        thickness_mm: Of what the needle goes through.

    Returns:
        None where the field is too small: a stitch would reach across two hoopings, or there
        would be more than `MOST_CELLS`.
    """
    moved, piece = lay_on_piece(stitches)
    divided = split_stitches(moved, piece, machine.field)
    if divided is None:
        return None
    marked = mark_hoopings([hooping for hooping, _ in divided], piece, unit="mm")
    hoopings = tuple(
        SewnHooping(
            hooping=hooping,
            runs=(),
            route=RouteFigures(),
            stitches=part,
            figures=count_stitches(
                part,
                machine,
                runs=1 + int((part.op == Op.CUT).sum()),
                thickness_mm=thickness_mm,
            ),
        )
        for hooping, (_, part) in zip(marked, divided, strict=True)
    )
    figures = sum((sewn.figures for sewn in hoopings), Figures())
    stage = Stage(
        name="quilt",
        piece=piece,
        thread=ThreadPair(),
        thickness_mm=thickness_mm,
        lines=(),
        hoopings=hoopings,
        figures=figures,
        bobbins=bobbins_for(
            [sewn.figures.bobbin_thread_mm for sewn in hoopings], machine.bobbin
        ),
    )
    quilt = Quilt(width=piece.width, length=piece.length, quilting=())
    project = Project(name=name, quilt=quilt, machine=machine)
    bare = Plan(
        project=project,
        stages=(stage,),
        cutting=(),
        findings=(),
        estimate=estimate_plan(project, (stage,), ()),
    )
    return replace(bare, findings=tuple(cautions.check(bare)))


def _plan_tasks(tasks: tuple[StageTask, ...], project: Project, each: Each) -> Plan:
    """Plan stages one by one; a stage with nothing to sew is left out."""
    planned: list[tuple[Stage, tuple[Finding, ...]]] = []
    for task in tasks:
        known = _marks_on(task.piece, [stage for stage, _ in planned])
        planned.append(_plan_stage(task, project, known, each))
    stages = tuple(stage for stage, _ in planned if stage.lines)
    said = tuple(finding for _, findings in planned for finding in findings)
    cuts = cut_list(project, stages)
    bare = Plan(
        project=project,
        stages=stages,
        cutting=cuts,
        findings=(),
        estimate=estimate_plan(project, stages, cuts),
    )
    return replace(bare, findings=check_plan(bare, said))


def _marks_on(piece: Piece, stages: list[Stage]) -> tuple[Mark, ...]:
    """Return the placement marks that earlier stages brought onto a piece."""
    return tuple(
        mark
        for stage in stages
        if stage.piece.name == piece.name
        for sewn in stage.hoopings
        for mark in sewn.hooping.marks
    )


def _plan_stage(
    task: StageTask, project: Project, known: tuple[Mark, ...], each: Each
) -> tuple[Stage, tuple[Finding, ...]]:
    laid = lay_lines(task, unit=project.units)
    task = replace(task, barriers=laid.barriers)
    lines = resampled(laid.lines, project.machine)
    placed = place_hoopings(task, lines, project)
    bare = [hooping for hooping, _ in placed.hoopings]
    marked = mark_hoopings(bare, task.piece, unit=project.units, known=known)
    parts = [parts for _, parts in placed.hoopings]
    placings = list(zip(marked, parts, _fresh_marks(marked), strict=True))
    hoopings = tuple(each(partial(_sew_hooping, task, project), placings))
    figures = sum((sewn.figures for sewn in hoopings), Figures())
    stage = Stage(
        name=task.name,
        piece=task.piece,
        thread=task.thread,
        thickness_mm=task.thickness_mm,
        layouts=laid.layouts,
        lines=lines,
        hoopings=hoopings,
        figures=figures,
        bobbins=bobbins_for(
            [sewn.figures.bobbin_thread_mm for sewn in hoopings],
            project.machine.bobbin,
            tex=project.supplies.thread_tex,
        ),
        barriers=task.barriers,
        bound=placed.bound,
        joins=placed.joins,
        designs=count_designs(laid.designs, hoopings),
    )
    error_mm = project.hoopings.placing_error
    miss = expect_misses(marked, stage.joins, placing_error_mm=error_mm)
    return replace(stage, miss=miss), (*laid.findings, *placed.findings)


def _fresh_marks(hoopings: tuple[Hooping, ...]) -> list[tuple[Mark, ...]]:
    """Return the marks of each hooping that no earlier one of the stage has had."""
    seen: set[str] = set()
    fresh: list[tuple[Mark, ...]] = []
    for hooping in hoopings:
        fresh.append(tuple(mark for mark in hooping.marks if mark.name not in seen))
        seen.update(mark.name for mark in hooping.marks)
    return fresh


def _sew_hooping(
    task: StageTask,
    project: Project,
    placed: tuple[Hooping, tuple[Line, ...], tuple[Mark, ...]],
) -> SewnHooping:
    """Return a hooping with its lines in order and in needle points; its new marks too."""
    hooping, lines, fresh = placed
    costs = find_costs(project.route, project.machine)
    route = order_runs(
        lines,
        costs,
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
