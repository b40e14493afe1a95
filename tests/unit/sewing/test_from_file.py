"""Lines from stitch files: their own needle points, ties where they have none."""

import numpy as np
import pytest

from stitchpath.model.design import SewnDesign
from stitchpath.model.hooping import Hooping
from stitchpath.model.line import Line
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Figures, SewnHooping
from stitchpath.model.route import RouteFigures
from stitchpath.model.stitches import Op, Run, Stitches
from stitchpath.sewing import count_designs, sew
from tests.support.file_lines import file_line
from tests.support.lines import run

LONG = [(0, 0), (3, 0), (6, 0), (9, 0)]
TIED = [(0, 0), (0.8, 0), (0, 0), (3, 0), (6, 0), (9, 0), (8.2, 0), (9, 0)]
"""Two short stitches at either end: the file ties its thread itself."""


def sewn(*lines: Line, machine: Machine | None = None, draws_up: bool = False) -> Stitches:
    runs = tuple(Run(lines=(line,)) for line in lines)
    return sew(runs, machine or Machine(), draws_up=draws_up)


def ops(stitches: Stitches) -> str:
    """Return each row as a letter: a tie's stitch is `t`."""
    letters = np.array(list("sjcp"))[stitches.op]
    letters[(stitches.op == Op.STITCH) & stitches.tie] = "t"
    return "".join(letters)


def test_a_tied_run_is_sewn_as_it_is() -> None:
    """Its short stitches count as ties."""
    stitches = sewn(file_line(TIED))
    assert stitches.needle_points.tolist() == [list(map(float, place)) for place in TIED]
    assert ops(stitches) == "jsttssstt"


def test_short_stitches_away_from_the_ends_are_no_ties() -> None:
    short = [(9 + x / 2, 0) for x in range(1, 8)]
    assert ops(sewn(file_line([*TIED[:6], *short, *[(x, 0) for x in range(20, 60, 3)]]))) == (
        "jsttsss" + 7 * "s" + 13 * "s" + "tttt"
    )


def test_a_run_without_ties_gets_them_and_keeps_its_points() -> None:
    stitches = sewn(file_line(LONG))
    assert ops(stitches) == "jsttt" + "ss" + "ttt" + "t"
    own = stitches.needle_points.tolist()
    assert [place for place in own if place in [[float(x), 0.0] for x, _ in LONG]] == [
        [float(x), 0.0] for x, _ in LONG
    ]
    assert len(own) == len(LONG) + 6


def test_moves_and_stops_within_a_run_stay_with_the_thread_uncut() -> None:
    stitches = sewn(file_line([*TIED[:4], (6, 0), (6, 5), *TIED[3:]], moved=[5], paused=[4]))
    assert ops(stitches).replace("t", "s") == "jsssspsjsssssss"[: len(stitches)]
    jump = int(np.flatnonzero(stitches.op == Op.JUMP)[1])
    assert stitches.xy[jump].tolist() == [6, 5]
    pause = int(np.flatnonzero(stitches.op == Op.PAUSE)[0])
    assert stitches.xy[pause].tolist() == [3, 0]


def test_thread_is_cut_between_runs_and_the_machine_stops_for_another_thread() -> None:
    stitches = sewn(file_line(TIED), file_line(TIED), file_line(TIED, thread=1))
    plain = ops(stitches).replace("t", "s")
    assert plain == "j" + 8 * "s" + "cj" + 8 * "s" + "cpj" + 8 * "s"
    by_hand = sewn(
        file_line(TIED), file_line(TIED, thread=1), machine=Machine(cuts_thread=False)
    )
    assert ops(by_hand).replace("t", "s") == "j" + 8 * "s" + "pj" + 8 * "s"


def test_a_stop_before_a_run_comes_after_the_cut() -> None:
    stitches = sewn(file_line(TIED), file_line(TIED, paused=[0]))
    assert ops(stitches).replace("t", "s") == "j" + 8 * "s" + "cpj" + 8 * "s"


def test_a_stop_before_everything_is_none() -> None:
    assert "p" not in ops(sewn(file_line(TIED, paused=[0])))


def test_runs_of_our_own_stay_as_they_were_beside_those_of_files() -> None:
    own = run([(0, 20), (30, 20)])
    mixed = sew((own, Run(lines=(file_line(TIED),)), own), Machine(), draws_up=False)
    alone = sew((own,), Machine(), draws_up=False)
    assert ops(mixed) == f"{ops(alone)}c{ops(sewn(file_line(TIED)))}c{ops(alone)}"
    assert mixed.xy[: len(alone)].tolist() == alone.xy.tolist()


def test_drawing_up_is_a_pause_after_the_first_needle_point() -> None:
    assert ops(sewn(file_line(TIED), draws_up=True)).startswith("jspt")


def test_a_run_on_the_spot_gets_no_tie_and_no_fault() -> None:
    stitches = sewn(file_line([(5, 5), (5, 5)]))
    assert stitches.needle_points.tolist() == [[5, 5], [5, 5]]


@pytest.mark.parametrize(("points", "ties"), [(LONG, 6), (TIED, 0), (TIED[:-2], 3)])
def test_ties_are_counted(points: list[tuple[float, float]], ties: int) -> None:
    line = file_line(points)
    design = SewnDesign(
        source="a.exp",
        copies=1,
        stitches=len(points),
        runs=1,
        left_out=0,
        way="kept",
        size=(9, 0),
    )
    one, two = (
        SewnHooping(
            hooping=Hooping(number=number, field=(100, 100), centre=(0, 0)),
            runs=(Run(lines=(line,)),),
            route=RouteFigures(),
            stitches=sewn(line),
            figures=Figures(),
        )
        for number in (1, 2)
    )
    (told,) = count_designs((design,), (one,))
    assert (told.sewn, told.ties) == (len(sewn(line).needle_points), ties)
    assert (told.divided, told.divided_runs) == (0, 0)
    (told,) = count_designs((design,), (one, two))
    assert (told.divided, told.divided_runs) == (1, 1)
