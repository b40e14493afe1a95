"""The plan of all stages, one after another; what each leaves on a piece the next one knows."""

from dataclasses import replace

from stitchpath.checks import check_plan, ring_overhang
from stitchpath.estimate import cut_list, estimate_plan
from stitchpath.model.finding import Finding
from stitchpath.model.hooping import Mark
from stitchpath.model.machine import Machine
from stitchpath.model.piece import Piece, StageTask
from stitchpath.model.plan import FieldAlone, Plan, Stage
from stitchpath.model.project import Project
from stitchpath.model.quilt import PocketSeam, Quilt
from stitchpath.pieces import Hand, make_corner_task, make_tasks
from stitchpath.pipeline.each import Each
from stitchpath.pipeline.stage import plan_stage


def plan(project: Project, *, each: Each = map) -> Plan:
    """Return everything that is decided about a project.

    The same project gives the same plan. A plan with an error finding is whole but must not be
    sewn; `Plan.has_errors` says so.

    Args:
        project: What the maker measured and chose.
        each: What orders and sews hooping after hooping, or several at a time.

    Example:
        >>> from stitchpath.model.quilt import Quilt
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


def _plan_tasks(tasks: tuple[StageTask, ...], project: Project, each: Each) -> Plan:
    """Plan stages one by one; a stage with nothing to sew is left out."""
    planned: list[tuple[Stage, tuple[Finding, ...]]] = []
    for task in tasks:
        known = _marks_on(task.piece, [stage for stage, _ in planned])
        planned.append(plan_stage(task, project, known, each))
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
