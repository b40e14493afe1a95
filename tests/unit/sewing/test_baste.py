"""Basting: crosses and a box before all else, long stitches, no ties, a pause after it."""

import numpy as np
import pytest

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.model.hooping import Hooping, Mark
from stitchpath.model.line import Line, LineKind
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Basting
from stitchpath.model.stitches import Op, Run, Stitches
from stitchpath.sewing import baste, sew
from stitchpath.sewing.baste import ARM_MM

PIECE = (400.0, 500.0)
HOOPING = Hooping(number=1, field=(200, 300), centre=(200, 250))


def mark(name: str, place: tuple[float, float], hooping: Hooping = HOOPING) -> Mark:
    x, y = hooping.to_field(np.array([place]))[0].tolist()
    return Mark(name=name, piece=place, field=(x, y))


def work(machine: Machine, start: tuple[float, float] = (150, 200)) -> Stitches:
    points = np.array([start, (start[0] + 80, start[1]), (start[0] + 80, start[1] + 60)])
    line = Line(points=points, kind=LineKind.QUILTING, stitch_mm=2.8)
    return sew((Run(lines=(line,)),), machine, draws_up=False)


def basted_points(stitches: Stitches) -> Points:
    end = int(np.flatnonzero(stitches.op == Op.PAUSE)[0])
    return np.asarray(stitches.xy[:end][stitches.op[:end] == Op.STITCH])


def test_nothing_to_baste_changes_nothing() -> None:
    stitches = work(Machine())
    assert baste(stitches, HOOPING, Machine()) == (stitches, Basting(), 0)


def test_crosses_come_first_then_a_pause_then_the_work_as_it_was() -> None:
    before = work(Machine())
    marks = [mark("A", (110, 110)), mark("B", (290, 390))]
    after, told, runs = baste(before, HOOPING, Machine(), marks=marks)
    assert (told.marks, told.box, runs) == (("A", "B"), False, 2)
    assert told.stitches == len(basted_points(after)) == 12  # two arms of three points, twice
    rows = len(after) - len(before)
    assert after.op[rows - 2 : rows].tolist() == [Op.CUT, Op.PAUSE]
    assert np.array_equal(after.xy[rows:], before.xy)
    assert np.array_equal(after.op[rows:], before.op)
    assert not after.tie[:rows].any()


def test_a_cross_has_a_needle_point_on_its_mark_and_reaches_equally_far() -> None:
    after, _, _ = baste(work(Machine()), HOOPING, Machine(), marks=[mark("A", (120, 130))])
    away = basted_points(after) - (120, 130)
    assert sorted(np.abs(away).sum(axis=1).tolist()) == pytest.approx([0, 0] + [ARM_MM] * 4)


def test_a_cross_at_the_fields_edge_stays_inside_it() -> None:
    after, _, _ = baste(work(Machine()), HOOPING, Machine(), marks=[mark("A", (102, 110))])
    places = np.round(HOOPING.to_field(basted_points(after)) / GRID_MM) * GRID_MM
    assert np.abs(places).max(axis=0)[0] <= 100


def test_box_goes_round_the_work_and_closes() -> None:
    before = work(Machine())
    after, told, runs = baste(before, HOOPING, Machine(), box_on=PIECE)
    box = basted_points(after)
    assert (told.box, told.marks, runs) == (True, (), 1)
    assert np.array_equal(box[0], box[-1])
    assert box.min(axis=0).tolist() == [146, 196]  # 4 mm outside 150, 200
    assert box.max(axis=0).tolist() == [234, 264]


@pytest.mark.parametrize("turn_deg", [0.0, 90.0, 180.0])
def test_box_stays_in_the_field_and_on_the_piece(turn_deg: float) -> None:
    hooping = Hooping(number=1, field=(100, 100), centre=(50, 50), turn_deg=turn_deg)
    after, _, _ = baste(work(Machine(), (10, 5)), hooping, Machine(), box_on=(91, 400))
    box = basted_points(after)
    assert box.min(axis=0).tolist() == [6, 2]  # 2 mm inside the top edge
    assert box.max(axis=0)[0] == 90  # the work reaches over the edge's room, the box with it
    assert np.abs(hooping.to_field(box)).max() <= 50


@pytest.mark.parametrize(("shortest", "longest"), [(0.3, 1.1), (1, 7), (5, 10.5), (4.9, 12)])
def test_stitches_keep_to_the_machines_limits(shortest: float, longest: float) -> None:
    machine = Machine(shortest_stitch=shortest, longest_stitch=longest)
    after, _, _ = baste(
        work(Machine()), HOOPING, machine, marks=[mark("A", (120, 130))], box_on=PIECE
    )
    end = int(np.flatnonzero(after.op == Op.PAUSE)[0])
    lengths = Stitches(xy=after.xy[:end], op=after.op[:end], tie=after.tie[:end]).sewn_lengths
    assert shortest <= lengths.min()
    assert lengths.max() <= longest


def test_a_machine_that_cuts_no_thread_gets_no_cuts() -> None:
    machine = Machine(cuts_thread=False)
    marks = [mark("A", (110, 110)), mark("B", (290, 390))]
    after, _, _ = baste(work(machine), HOOPING, machine, marks=marks)
    assert np.count_nonzero(after.op == Op.CUT) == 0
    assert np.count_nonzero(after.op == Op.PAUSE) == 1
