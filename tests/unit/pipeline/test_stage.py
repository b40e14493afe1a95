"""One stage: the order in which hoopings are sewn, and what no thread may cross."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from itertools import pairwise
from typing import TypeVar

import pytest
import shapely

from stitchpath.cli.side_by_side import side_by_side
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Plan, Stage
from stitchpath.model.project import HoopingRules, Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.shape import Shape
from stitchpath.model.supplies import Supplies, Times
from stitchpath.pipeline import Each, plan
from tests.support.plan_text import plan_text

Thing = TypeVar("Thing")
Made = TypeVar("Made")


def _last_first(make: Callable[[Thing], Made], things: Sequence[Thing]) -> list[Made]:
    return [make(thing) for thing in reversed(things)][::-1]


@pytest.mark.parametrize("each", [_last_first, partial(side_by_side, worth_seconds=0.0)])
def test_hoopings_may_be_sewn_in_any_order_and_by_several_processes(each: Each) -> None:
    wide = Project(quilt=Quilt(width=900, length=900, quilting=(Quilting(spacing=60),)))
    alone, planned = plan(wide), plan(wide, each=each)
    assert len(alone.stages[0].hoopings) > 8
    assert plan_text(planned) == plan_text(alone)


def _ribbon(width: float, *, kept: bool) -> Plan:
    """Return upright lines in two halves, apart by so much; the gap is a keep-out, or bare."""
    halves = [(20, 20, 260, 80), (20, 100 + width, 260, 80)]
    gap = Shape(rectangle=(20, 100, 260, width))
    layouts = tuple(
        Quilting(
            layout="parallel",
            angle=90,
            spacing=30,
            area=Shape(rectangle=half),
            keep_out=(gap,) if kept else (),
        )
        for half in halves
    )
    quilt = Quilt(width=300, length=200 + width, edge_stitch=0, quilting=layouts)
    return plan(Project(quilt=quilt, machine=Machine(field=(400, 400))))


def test_travel_over_a_keep_out_is_cut() -> None:
    """Eight lines each way of a ribbon 5 mm wide: bare, the needle hops over it uncut."""
    bare, kept = _ribbon(5, kept=False), _ribbon(5, kept=True)
    assert bare.figures.runs < kept.figures.runs
    ribbon = shapely.box(20, 100.01, 280, 104.99)
    (stage,) = kept.stages
    for run in stage.hoopings[0].runs:
        for before, after in pairwise(run.lines):
            hop = shapely.LineString([before.points[-1], after.points[0]])
            assert not shapely.intersects(hop, ribbon)


def test_a_ring_begins_on_the_pieces_edge_where_it_touches_it() -> None:
    """The needle comes from the middle, 150, 150: the corner at 120 would be nearer."""
    corners = ((60, 90), (120, 150), (60, 210), (0, 150))
    ring = Quilting(layout="outline", area=Shape(polygon=corners))
    quilt = Quilt(width=300, length=300, edge_stitch=0, quilting=(ring,))
    stage = _stage(Project(quilt=quilt, machine=Machine(field=(400, 400))))
    (run,) = stage.hoopings[0].runs
    assert run.lines[0].points[0].tolist() == [0, 150]


WIDE = Project(quilt=Quilt(width=500, length=500, quilting=(Quilting(spacing=60),)))


def _stage(project: Project) -> Stage:
    (stage,) = plan(project).stages
    return stage


def test_every_mark_is_basted_once_in_the_first_hooping_that_has_it() -> None:
    stage = _stage(replace(WIDE, hoopings=HoopingRules(sew_marks=True)))
    basted = [name for sewn in stage.hoopings for name in sewn.basting.marks]
    assert sorted(basted) == sorted(mark.name for mark in stage.marks)
    assert any(len(mark.hoopings) > 1 for mark in stage.marks)


def test_makers_own_times_and_thread_are_counted_with() -> None:
    """Ten times as thick a thread, a tenth of it on a bobbin; a cut takes a minute more."""
    usual = _stage(WIDE)
    thick = _stage(replace(WIDE, supplies=Supplies(thread_tex=200.0)))
    assert thick.bobbins > 3 * usual.bobbins
    slow = _stage(replace(WIDE, times=Times(cut_seconds=65.0)))
    more = slow.figures.seconds - usual.figures.seconds
    assert usual.figures.thread_cuts > 0
    assert more == pytest.approx(60 * usual.figures.thread_cuts)
