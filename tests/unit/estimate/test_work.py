"""A hooping's whole time, and evenings: all times are the project's own."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.estimate.work import plan_sessions, work_times
from stitchpath.model.estimate import BobbinChange, Bobbins, Work
from stitchpath.model.supplies import Times
from stitchpath.model.thread import ThreadPair
from tests.support.plans import small_plan

TIMES = Times(hooping_minutes=5, placing_minutes=3, thread_minutes=1, bobbin_minutes=2)
STAGES = small_plan().stages


def _work(seconds: float, number: int = 1) -> Work:
    return Work(
        stage="quilt", hooping=number, sewing=seconds, placing=0.0, thread=0.0, bobbin=0.0
    )


def test_every_hooping_is_hooped_and_placed() -> None:
    work = work_times(STAGES, (), TIMES)
    assert [one.hooping for one in work] == [1, 2, 3, 4, 1]
    assert all(one.placing == 8 * 60 for one in work)


def test_thread_and_bobbin_go_in_at_the_start_and_where_colours_change() -> None:
    work = work_times(STAGES, (), TIMES)
    assert [one.thread for one in work] == [60, 0, 0, 0, 0]
    assert [one.bobbin for one in work] == [120, 0, 0, 0, 0]
    other = replace(STAGES[1], thread=ThreadPair(top="red", bobbin="blue"))
    work = work_times((STAGES[0], other), (), TIMES)
    assert [one.thread for one in work] == [60, 0, 0, 0, 60]
    assert [one.bobbin for one in work] == [120, 0, 0, 0, 120]


def test_every_change_of_bobbin_takes_its_time() -> None:
    changes = tuple(
        BobbinChange(stage="quilt", hooping=3, stitch=10, within=within)
        for within in (False, True)
    )
    bobbins = Bobbins(colour="#faf0e6", count=3, changes=changes, left_mm=0.0, full_mm=36e3)
    work = work_times(STAGES, (bobbins,), TIMES)
    assert [one.bobbin for one in work] == [120, 0, 240, 0, 0]


def test_all_of_it_is_the_file_and_the_hands() -> None:
    one = Work(stage="quilt", hooping=1, sewing=100, placing=480, thread=60, bobbin=120)
    assert (one.handling, one.seconds) == (660, 760)


@given(seconds=st.lists(st.floats(1, 9000), min_size=1, max_size=20), hours=st.floats(0.25, 3))
def test_evenings_hold_every_hooping_in_order_and_no_more_than_fit(
    seconds: list[float], hours: float
) -> None:
    sessions = plan_sessions([_work(s, n) for n, s in enumerate(seconds)], hours)
    assert sum(one.hoopings for one in sessions) == len(seconds)
    assert sum(one.seconds for one in sessions) == pytest.approx(sum(seconds))
    at = 0
    for one in sessions:
        assert (one.first[1], one.last[1]) == (at, at + one.hoopings - 1)
        at += one.hoopings
        assert one.over == (one.hoopings == 1 and one.seconds > hours * 3600)
        if at < len(seconds) and not one.over:
            assert one.seconds + seconds[at] > hours * 3600 * (1 - 1e-9)


def test_nothing_to_sew_takes_no_evening() -> None:
    assert plan_sessions([], 2) == ()
