"""The plan of stitches that are there already, from a file that somebody else made."""

from dataclasses import replace

from stitchpath.checks import cautions
from stitchpath.estimate import bobbins_for, count_stitches, estimate_plan
from stitchpath.hoopings import lay_on_piece, mark_hoopings, split_stitches
from stitchpath.model.hooping import Hooping
from stitchpath.model.machine import Machine
from stitchpath.model.piece import Piece
from stitchpath.model.plan import Figures, Plan, SewnHooping, Stage
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt
from stitchpath.model.route import RouteFigures
from stitchpath.model.stitches import Op, Stitches
from stitchpath.model.thread import ThreadPair


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
        _as_sewn(hooping, part, machine, thickness_mm)
        for hooping, (_, part) in zip(marked, divided, strict=True)
    )
    stage = _stage(piece, hoopings, machine, thickness_mm)
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


def _as_sewn(
    hooping: Hooping, stitches: Stitches, machine: Machine, thickness_mm: float
) -> SewnHooping:
    runs = 1 + int((stitches.op == Op.CUT).sum())
    return SewnHooping(
        hooping=hooping,
        runs=(),
        route=RouteFigures(),
        stitches=stitches,
        figures=count_stitches(stitches, machine, runs=runs, thickness_mm=thickness_mm),
    )


def _stage(
    piece: Piece, hoopings: tuple[SewnHooping, ...], machine: Machine, thickness_mm: float
) -> Stage:
    return Stage(
        name="quilt",
        piece=piece,
        thread=ThreadPair(),
        thickness_mm=thickness_mm,
        lines=(),
        hoopings=hoopings,
        figures=sum((sewn.figures for sewn in hoopings), Figures()),
        bobbins=bobbins_for(
            [sewn.figures.bobbin_thread_mm for sewn in hoopings], machine.bobbin
        ),
    )
