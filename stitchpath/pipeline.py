"""The whole tool in one function: a project in, a plan out. Pure: no files, clock or chance."""

from dataclasses import replace

from stitchpath.checks import cautions, check_plan
from stitchpath.estimate import (
    bobbins_for,
    count_stitches,
    cut_list,
    estimate_plan,
    expect_misses,
)
from stitchpath.hoopings import (
    Placed,
    give_back_room,
    keep_room,
    lay_on_piece,
    mark_hoopings,
    place_hoopings,
    split_stitches,
)
from stitchpath.layouts import lay_lines
from stitchpath.model.finding import Finding
from stitchpath.model.hooping import Hooping, Mark
from stitchpath.model.piece import Piece, StageTask
from stitchpath.model.plan import FieldAlone, Figures, Plan, SewnHooping, Stage
from stitchpath.model.project import Machine, PocketSeam, Project, Quilt, ThreadPair
from stitchpath.model.route import RouteFigures
from stitchpath.model.stitches import Op, Stitches
from stitchpath.pieces import Hand, make_corner_task, make_tasks
from stitchpath.route import find_costs, order_runs
from stitchpath.sewing import baste, count_designs, resampled, sew


def plan(project: Project) -> Plan:
    """Return everything that is decided about a project.

    The same project gives the same plan. A plan with an error finding is whole but must not be
    sewn; `Plan.has_errors` says so.

    Example:
        >>> from stitchpath.model.project import Quilt
        >>> throw = plan(Project(quilt=Quilt(width=900, length=1200)))
        >>> [stage.name for stage in throw.stages], throw.has_errors
        (['quilt'], False)
    """
    planned = _plan_tasks(make_tasks(project), project)
    return replace(planned, fields_alone=_fields_alone(project))


def plan_corner(seam: PocketSeam, machine: Machine, *, hand: Hand, thickness_mm: float) -> Plan:
    """Return the plan of one reinforcing triangle by itself.

    Args:
        seam: The triangle's legs, passes, stitch length and thread.
        machine: What sews it.
        hand: Which end of the mouth.
        thickness_mm: Of everything that is sewn through, quilt and pocket.
    """
    task = make_corner_task(seam, hand=hand, thickness_mm=thickness_mm)
    scrap = Quilt(width=task.piece.width, length=task.piece.length, quilting=())
    return _plan_tasks((task,), Project(name="Corner", quilt=scrap, machine=machine))


def _fields_alone(project: Project) -> tuple[FieldAlone, ...]:
    """Return what each of several fields would need by itself, from a whole plan for each."""
    machine = project.machine
    if len(machine.owned_fields) == 1:
        return ()
    return tuple(
        _alone(field, replace(project, machine=replace(machine, fields=(field,))))
        for field in machine.owned_fields
    )


def _alone(field: tuple[float, float], project: Project) -> FieldAlone:
    planned = _plan_tasks(make_tasks(project), project)
    can_sew = not planned.has_errors
    return FieldAlone(
        field=field,
        hoopings=sum(len(stage.hoopings) for stage in planned.stages) if can_sew else 0,
        seconds=planned.figures.seconds if can_sew else 0.0,
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


def _plan_tasks(tasks: tuple[StageTask, ...], project: Project) -> Plan:
    """Plan stages one by one; a stage with nothing to sew is left out."""
    planned: list[tuple[Stage, tuple[Finding, ...]]] = []
    for task in tasks:
        known = _marks_on(task.piece, [stage for stage, _ in planned])
        planned.append(_plan_stage(task, project, known))
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
    task: StageTask, project: Project, known: tuple[Mark, ...]
) -> tuple[Stage, tuple[Finding, ...]]:
    laid = lay_lines(task, unit=project.units)
    task = replace(task, barriers=laid.barriers)
    lines = resampled(laid.lines, project.machine)
    placed = place_hoopings(task, lines, keep_room(project))
    bare = [give_back_room(hooping, project.hoopings.room) for hooping, _ in placed.hoopings]
    marked = mark_hoopings(bare, task.piece, unit=project.units, known=known)
    hoopings = tuple(
        _sew_hooping((hooping, own), task, project, fresh)
        for hooping, (_, own), fresh in zip(
            marked, placed.hoopings, _fresh_marks(marked), strict=True
        )
    )
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
    placed: Placed, task: StageTask, project: Project, fresh: tuple[Mark, ...]
) -> SewnHooping:
    hooping, lines = placed
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
