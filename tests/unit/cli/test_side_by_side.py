"""Work of several processes: the same as by one, and nothing is left behind."""

import os
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from functools import partial
from multiprocessing import Pipe
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Final, TypeVar

import numpy as np
import pytest

from stitchpath.cli.side_by_side import _answer, side_by_side
from stitchpath.errors import StitchpathError
from stitchpath.geometry.points import Points, frozen_points

_Made = TypeVar("_Made")

_ALONE, _TOGETHER = float("inf"), 0.0
_PROGRAM = "tests.support.shared_work"
_SECONDS: Final = 20
"""A process that is still there after so long is never going to end."""


@pytest.fixture(params=["fork", "spawn"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Have processes begun in either way, and one more than this at most."""
    threads = 1 if request.param == "fork" else 2
    monkeypatch.setattr("threading.active_count", lambda: threads)
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0, 1})
    return str(request.param)


def _squared(number: int) -> tuple[int, int]:
    return number**2, os.getpid()


def _together(number: int, *, make: Callable[[int], _Made], own: int, folder: Path) -> _Made:
    """Make; of what is shared, the first process makes nothing before another has begun."""
    if os.getpid() != own:
        (folder / "begun").touch()
    last = time.monotonic() + _SECONDS
    while number > 1 and not (folder / "begun").exists():
        assert time.monotonic() < last
        time.sleep(0.01)
    return make(number)


def _long_third(number: int) -> tuple[int, int]:
    time.sleep(1.5 if number == 2 else 0.01)
    return number, os.getpid()


def _points(number: int) -> Points:
    return frozen_points([[number, 0.5]])


def _odd_alone(number: int) -> int:
    if number % 2:
        raise ValueError(f"{number} is odd")
    return number


def _fails_late(number: int) -> int:
    if number > 4:
        raise ValueError(f"{number} is too much")
    return number


def _ends_other(number: int, *, own: int) -> int:
    if os.getpid() != own:
        os.kill(os.getpid(), signal.SIGKILL)
    return number


def _hears_no_stop(_: int) -> tuple[int, bool]:
    return os.getpid(), signal.SIGINT in signal.pthread_sigmask(signal.SIG_BLOCK, [])


def test_two_processes_make_the_same_in_the_same_order(way: str, tmp_path: Path) -> None:
    alone = side_by_side(_squared, range(9), worth_seconds=_ALONE)
    squared = partial(_together, make=_squared, own=os.getpid(), folder=tmp_path)
    together = side_by_side(squared, range(9), worth_seconds=_TOGETHER)
    assert [value for value, _ in together] == [value for value, _ in alone], way
    assert {process for _, process in alone} == {os.getpid()}
    assert len({process for _, process in together}) == 2


def test_how_many_are_made_is_told_as_if_all_kept_step(way: str) -> None:
    told: list[int] = []
    side_by_side(_squared, range(9), worth_seconds=_TOGETHER, on_made=told.append)
    assert sum(told) == 9
    # where whoever is free takes what is next, another may have made more or less by then
    assert told == [1, 1, 2, 2, 2, 1] or way == "fork"


def test_first_two_things_are_made_here(way: str, tmp_path: Path) -> None:
    squared = partial(_together, make=_squared, own=os.getpid(), folder=tmp_path)
    made = side_by_side(squared, range(4), worth_seconds=_TOGETHER)
    own = [process == os.getpid() for _, process in made]
    assert own[:2] == [True, True], way
    assert not all(own)


def test_whoever_is_free_takes_what_is_next(monkeypatch: pytest.MonkeyPatch) -> None:
    """The third takes longer than all that come after it: who makes it makes no other."""
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0, 1})
    made = side_by_side(_long_third, range(9), worth_seconds=_TOGETHER)
    by_third = [number for number, process in made if process == made[2][1]]
    assert set(by_third) - {0, 1} == {2}


def test_more_things_than_a_pipe_holds_numbers_are_all_made(way: str) -> None:
    made = side_by_side(_squared, range(5_000), worth_seconds=_TOGETHER)
    assert [value for value, _ in made] == [number**2 for number in range(5_000)], way


def test_arrays_come_back_read_only(way: str) -> None:
    made = side_by_side(_points, range(6), worth_seconds=_TOGETHER)
    assert not any(points.flags.writeable for points in made), way
    np.testing.assert_array_equal(np.concatenate(made)[:, 0], range(6))


@pytest.mark.parametrize("things", [range(0), range(1), range(2), range(3)])
def test_few_things_are_made_here(way: str, things: range) -> None:
    made = side_by_side(_squared, things, worth_seconds=_TOGETHER)
    assert {process for _, process in made} <= {os.getpid()}, way
    assert [value for value, _ in made] == [number**2 for number in things]


def test_little_work_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0, 1})
    assert {process for _, process in side_by_side(_squared, range(9))} == {os.getpid()}


def test_one_core_works_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("os.sched_getaffinity", lambda _: {0})
    made = side_by_side(_squared, range(9), worth_seconds=_TOGETHER)
    assert {process for _, process in made} == {os.getpid()}


def test_what_fails_in_another_process_fails_here(way: str) -> None:
    with pytest.raises(ValueError, match="5 is too much") as failed:
        side_by_side(_fails_late, range(9), worth_seconds=_TOGETHER)
    assert failed.traceback[-1].name == "_fails_late", way


def test_what_fails_first_is_told(way: str) -> None:
    with pytest.raises(ValueError, match="3 is odd"):
        side_by_side(_odd_alone, [0, 2, 3, 4, 5, 7], worth_seconds=_TOGETHER)
    assert way


def test_process_ended_from_outside_is_told(way: str, tmp_path: Path) -> None:
    ends = partial(_ends_other, own=os.getpid())
    ends_other = partial(_together, make=ends, own=os.getpid(), folder=tmp_path)
    with pytest.raises(StitchpathError, match=r"ended from outside; .*\nhelp: try again"):
        side_by_side(ends_other, range(9), worth_seconds=_TOGETHER)
    assert way


def test_another_process_hears_no_stop_from_its_start_on(way: str, tmp_path: Path) -> None:
    """It would end with a traceback of its own; a mask is inherited, a handler is not."""
    hears = partial(_together, make=_hears_no_stop, own=os.getpid(), folder=tmp_path)
    made = side_by_side(hears, range(6), worth_seconds=_TOGETHER)
    assert {hears_no for process, hears_no in made if process != os.getpid()} == {True}, way
    assert {hears_no for process, hears_no in made if process == os.getpid()} == {False}


class _Waiting:
    """A process that waits for an answer, for so many questions whether it is still there."""

    def __init__(self, asked: int) -> None:
        self._left = asked

    def is_alive(self) -> bool:
        self._left -= 1
        return self._left >= 0


@pytest.fixture
def pipe() -> Iterator[tuple[Connection, Connection]]:
    """Give the two ends of a pipe, and answer Ctrl-C as before when all is done."""
    before = signal.getsignal(signal.SIGINT)
    near, far = Pipe(duplex=False)
    with near, far:
        yield near, far
    signal.signal(signal.SIGINT, before)


@pytest.mark.parametrize(
    ("asked", "answer"),
    [(9, {0: (0,), 1: None, 2: (2,), 3: None}), (3, {0: (0,), 1: None, 2: (2,)}), (0, {})],
)
def test_share_is_made_as_long_as_somebody_waits(
    pipe: tuple[Connection, Connection],
    monkeypatch: pytest.MonkeyPatch,
    asked: int,
    answer: dict[int, tuple[int] | None],
) -> None:
    near, far = pipe
    monkeypatch.setattr("multiprocessing.parent_process", partial(_Waiting, asked))
    _answer(_odd_alone, range(4), range(4), far)
    assert near.recv() == answer
    assert signal.getsignal(signal.SIGINT) is signal.SIG_IGN


def test_answer_that_nobody_takes_is_dropped(
    pipe: tuple[Connection, Connection], monkeypatch: pytest.MonkeyPatch
) -> None:
    near, far = pipe
    near.close()
    monkeypatch.setattr("multiprocessing.parent_process", partial(_Waiting, 9))
    _answer(_odd_alone, range(4), range(4), far)


def _begun(tmp_path: Path) -> "tuple[subprocess.Popen[str], list[int]]":
    """Begin work that takes for ever; return the process, and those that share in it."""
    begun = subprocess.Popen(
        [sys.executable, "-m", _PROGRAM, str(tmp_path)],
        stderr=subprocess.PIPE,
        text=True,
    )
    last = time.monotonic() + _SECONDS
    while len(found := [int(file.name) for file in tmp_path.iterdir()]) < 2:
        assert begun.poll() is None
        assert time.monotonic() < last
        time.sleep(0.01)
    return begun, found


def _is_there(process: int) -> bool:
    """Return whether a process is at work; one that has ended may not have been asked after."""
    try:
        status = Path(f"/proc/{process}/stat").read_text(encoding="ascii")
    except OSError:
        return False
    return status.rsplit(")", 1)[1].split()[0] not in {"Z", "X"}


@pytest.mark.parametrize("number", [signal.SIGINT, signal.SIGKILL])
def test_no_process_outlives_the_one_that_began_it(
    tmp_path: Path, number: signal.Signals
) -> None:
    begun, processes = _begun(tmp_path)
    assert begun.pid in processes
    begun.send_signal(number)
    _, said = begun.communicate()
    if number is signal.SIGINT:
        assert (begun.returncode, said) == (130, "stopped; nothing is half written\n")
    last = time.monotonic() + _SECONDS
    while any(_is_there(process) for process in processes):
        assert time.monotonic() < last
        time.sleep(0.01)
