"""Minutes against worked examples, and the speed factor against the time it is made from.

Source of the examples: docs/sources.md, time.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.estimate import count_stitches, timed_factor
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Figures
from stitchpath.model.stitches import Op, Stitches
from stitchpath.model.supplies import Times

STEADY = Times(ramp_stitches=0)


def _row(points: int, stitch_mm: float) -> Stitches:
    x = np.arange(points) * stitch_mm
    return Stitches(
        xy=np.column_stack([x, 0 * x]),
        op=np.full(points, Op.STITCH),
        tie=np.zeros(points, bool),
    )


def _seconds(stitches: Stitches, speed: float, times: Times = STEADY) -> float:
    figures = count_stitches(stitches, Machine(speed=speed), times, runs=1, thickness_mm=1.0)
    return figures.seconds


@pytest.mark.parametrize(("points", "minutes"), [(1000, 1.43), (10_000, 14.3)])
def test_stitches_over_speed(points: int, minutes: float) -> None:
    """1,000 and 10,000 stitches at 700 a minute: 1.43 and 14.3 min (a frame maker's page)."""
    assert _seconds(_row(points, 2.5), 700) / 60 == pytest.approx(minutes, rel=0.005)


def test_six_thousand_stitches_take_under_ten_minutes_on_the_usual_machine() -> None:
    """Most run at 600 to 750, and do 6,000 stitches in under 10 min (a supplier's page)."""
    assert _seconds(_row(6000, 2.5), 650) / 60 < 10


@pytest.mark.parametrize(
    ("stitch_mm", "per_minute"),
    [(2.5, 800), (4, 632), (5, 566), (7, 478), (10, 400), (12, 365)],
)
def test_long_stitches_are_slower(stitch_mm: float, per_minute: float) -> None:
    """800 at 2.5 mm and 1 / sqrt of the length (derived, no source)."""
    points = 4001
    seconds = _seconds(_row(points, stitch_mm), 3000)
    first = 60 / 3000  # the first needle point is no stitch
    assert (points - 1) / ((seconds - first) / 60) == pytest.approx(per_minute, rel=0.003)


def test_a_set_speed_below_is_what_is_sewn() -> None:
    assert _seconds(_row(601, 4.0), 600) == pytest.approx(60.1)


def test_stitches_after_each_start_take_twice_their_time() -> None:
    one = _row(100, 2.5)
    ops = np.concatenate([one.op, [Op.CUT, Op.JUMP], one.op]).astype(np.uint8)
    xy = np.concatenate([one.xy, one.xy[-1:], one.xy[:1], one.xy])
    two = Stitches(xy=xy, op=ops, tie=np.zeros(len(ops), bool))
    slow = Times(ramp_stitches=8, cut_seconds=0)
    assert _seconds(two, 600, slow) == pytest.approx((200 + 2 * 8) / 10)


def test_a_run_shorter_than_its_start_is_all_slow() -> None:
    assert _seconds(_row(5, 2.5), 600, Times(ramp_stitches=8)) == pytest.approx(1.0)


def test_no_stitches_take_no_time() -> None:
    nothing = Stitches(xy=np.empty((0, 2)), op=np.empty(0, np.uint8), tie=np.empty(0, bool))
    assert _seconds(nothing, 600) == 0.0


def test_fewer_stops_and_stitches_save_what_a_worked_example_says() -> None:
    """22,000 stitches and 6 stops for 26,000 and 12 save over 5 min at 1,000 a minute.

    4 min of that are stitches, so that a stop is over 10 s (a digitiser's example).
    """

    def minutes(points: int, stops: int) -> float:
        row = _row(points + stops, 2.0)
        op = row.op.copy()
        op[100 : 100 + 200 * stops : 200] = Op.PAUSE
        return _seconds(Stitches(xy=row.xy, op=op, tie=row.tie), 1000, Times()) / 60

    assert minutes(26_000, 12) - minutes(22_000, 6) > 5


@given(
    factor=st.floats(0.1, 2.0),
    points=st.integers(20, 400),
    stitch_mm=st.floats(1, 7),
    stops=st.integers(0, 5),
)
def test_the_factor_found_gives_the_time_back(
    factor: float, points: int, stitch_mm: float, stops: int
) -> None:
    row = _row(points, stitch_mm)
    op = row.op.copy()
    op[1 : 2 * stops : 2] = Op.PAUSE
    stitches = Stitches(xy=row.xy, op=op, tie=row.tie)
    machine = Machine()
    plain = count_stitches(stitches, machine, runs=1, thickness_mm=1)
    real = count_stitches(stitches, machine, Times(speed_factor=factor), runs=1, thickness_mm=1)
    assert timed_factor(plain, Times(), real.seconds) == pytest.approx(factor)


def test_a_file_cannot_take_less_than_its_stops() -> None:
    with pytest.raises(ValueError, match="the cuts and pauses alone take 20 s"):
        timed_factor(Figures(seconds=100, thread_cuts=4), Times(), 20)
