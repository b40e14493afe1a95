"""Counts, minutes and thread against published and worked examples.

Sources (docs/sources.md): thread of a lockstitch per inch of seam 2 + 2TS, with T the thickness
in inches and S the stitches to the inch; published worked examples are named where they stand.
"""

import numpy as np
import pytest

from stitchpath.estimate import count_stitches
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Figures
from stitchpath.model.stitches import Op, Stitches
from stitchpath.model.supplies import Times
from stitchpath.units import MM_PER

INCH = MM_PER["in"]
STEADY = Times(ramp_stitches=0, cut_seconds=4, snip_seconds=16, pause_seconds=25)


def _row(count: int, stitch_mm: float) -> Stitches:
    """Return a straight row of so many stitches, without ties."""
    at = np.arange(count + 1) * stitch_mm
    op = np.full(count + 1, Op.STITCH, dtype=np.uint8)
    return Stitches(
        xy=np.column_stack([at, np.zeros(count + 1)]), op=op, tie=np.zeros(count + 1, bool)
    )


def _figures(stitches: Stitches, thickness_mm: float = 0.0, **machine: object) -> Figures:
    made = Machine(**machine)  # type: ignore[arg-type]
    return count_stitches(stitches, made, runs=1, thickness_mm=thickness_mm)


@pytest.mark.parametrize(("thickness_in", "expected_in"), [(0.025, 2.5), (0.01, 2.2)])
def test_an_inch_of_ten_stitches_takes_what_worked_examples_say(
    thickness_in: float, expected_in: float
) -> None:
    """Two published problems, S 10: 2 + 2 * 0.025 * 10 = 2.5 in and 2 + 2 * 0.01 * 10 = 2.2."""
    figures = _figures(_row(10, INCH / 10), thickness_mm=thickness_in * INCH)
    both = figures.top_thread_mm + figures.bobbin_thread_mm
    assert both / INCH == pytest.approx(expected_in)


@pytest.mark.parametrize("thickness_in", [0.055, 0.060, 0.065, 0.070, 0.075])
@pytest.mark.parametrize("to_the_inch", [6, 8, 10, 12])
def test_thread_follows_two_and_two_times_thickness_times_stitches(
    thickness_in: float, to_the_inch: int
) -> None:
    figures = _figures(_row(to_the_inch, INCH / to_the_inch), thickness_mm=thickness_in * INCH)
    both = figures.top_thread_mm + figures.bobbin_thread_mm
    assert both / INCH == pytest.approx(2 + 2 * thickness_in * to_the_inch)


@pytest.mark.parametrize(("stitch", "thickness"), [(2.54, 0.635), (2.8, 3.0), (4.0, 0.0)])
def test_thread_to_seam_is_twice_one_and_thickness_over_stitch(
    stitch: float, thickness: float
) -> None:
    """Ratio 2 (1 + t / L), the same formula in metric (derived)."""
    figures = _figures(_row(100, stitch), thickness_mm=thickness)
    both = figures.top_thread_mm + figures.bobbin_thread_mm
    assert both / (100 * stitch) == pytest.approx(2 * (1 + thickness / stitch))


def test_both_threads_take_the_same() -> None:
    """220 cm of seam at 2.5 to 1: 275 cm of each thread, 550 cm together (worked example)."""
    stitch = 2.54
    figures = _figures(_row(round(2200 / stitch), stitch), thickness_mm=0.635)
    assert figures.top_thread_mm == figures.bobbin_thread_mm
    assert figures.top_thread_mm == pytest.approx(2750, rel=0.001)


def test_ten_thousand_stitches_at_seven_hundred_take_fourteen_minutes_and_a_third() -> None:
    figures = _figures(_row(9999, 2.5), speed=700.0)
    assert figures.stitches == 10_000
    assert figures.seconds / 60 == pytest.approx(14.3, abs=0.05)


def _two_runs(*, pause: bool = False, cut: bool = True) -> Stitches:
    ops = [Op.JUMP, Op.STITCH, *([Op.PAUSE] if pause else []), Op.STITCH, Op.STITCH]
    ops += [*([Op.CUT] if cut else []), *ops]
    x = np.cumsum([op in (Op.STITCH, Op.JUMP) for op in ops]) * 3.0
    return Stitches(
        xy=np.column_stack([x, 0 * x]), op=np.array(ops), tie=np.zeros(len(ops), bool)
    )


def _of_two(stitches: Stitches, machine: Machine) -> Figures:
    return count_stitches(stitches, machine, STEADY, runs=2, thickness_mm=1.0)


def test_needle_points_runs_cuts_and_moves_are_counted() -> None:
    figures = _of_two(_two_runs(), Machine())
    assert (figures.stitches, figures.runs, figures.jumps) == (6, 2, 2)
    assert (figures.thread_cuts, figures.snips, figures.pauses) == (1, 0, 0)


def test_a_move_is_no_stitch_and_takes_no_thread() -> None:
    """Four stitches of 3 mm through 1 mm: 4 * (3 + 1) of each thread."""
    figures = _of_two(_two_runs(), Machine())
    assert figures.top_thread_mm == pytest.approx(16)


def test_cuts_snips_and_pauses_take_their_time() -> None:
    machine = Machine(speed=600.0)
    sewing = 6 / 600 * 60
    assert _of_two(_two_runs(), machine).seconds == pytest.approx(sewing + 4)
    by_hand = _of_two(_two_runs(cut=False), Machine(speed=600.0, cuts_thread=False))
    assert (by_hand.snips, by_hand.thread_cuts) == (1, 0)
    assert by_hand.seconds == pytest.approx(sewing + 16)
    pausing = _of_two(_two_runs(pause=True), machine)
    assert pausing.pauses == 2
    assert pausing.seconds == pytest.approx(sewing + 4 + 2 * 25)


def test_jumps_in_a_row_are_one_move() -> None:
    """Some formats need several records for a long move; the maker sees one."""
    op = np.array([Op.JUMP, Op.JUMP, Op.STITCH, Op.STITCH, Op.JUMP, Op.JUMP, Op.STITCH])
    xy = np.column_stack([np.arange(7.0), np.zeros(7)])
    figures = _of_two(Stitches(xy=xy, op=op, tie=np.zeros(7, bool)), Machine())
    assert figures.jumps == 2


def test_figures_add_up_one_by_one() -> None:
    one = Figures(stitches=1, runs=2, thread_cuts=3, snips=4, jumps=5, pauses=6, seconds=7.5)
    both = one + one
    assert both.stitches == 2
    assert both.pauses == 12
    assert both.seconds == 15
