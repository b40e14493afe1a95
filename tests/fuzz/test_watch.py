"""Harm is noticed, told and kept with its smallest input; so are hangs."""

import signal
from pathlib import Path

import pytest

from tests.fuzz import run


def test_smallest_input_of_each_harm_is_kept(tmp_path: Path) -> None:
    def check(data: bytes) -> bytes | None:
        if data.startswith(b"a"):
            raise ValueError(data)
        assert not data.startswith(b"b")
        return data if data == b"good" else None

    watch = run.Watch(check, tmp_path)
    for data in (b"a12", b"a1", b"a123", b"b", b"refused", b"good"):
        watch(data)
    assert (watch.runs, watch.read, watch.good) == (6, 1, [b"good"])
    assert sorted(watch.found.values()) == [1, 2]
    later = run.Watch(check, tmp_path)
    later(b"a1234")
    assert list(later.found.values()) == [2]
    assert {(tmp_path / name).read_bytes() for name in watch.found} == {b"a1", b"b"}
    assert all("check(" in (tmp_path / f"{name}.txt").read_text() for name in watch.found)


def test_rounds_take_the_time_asked_for() -> None:
    assert [run.rounds(seconds) for seconds in (20, 120, 330)] == [[20], [120], [120, 120, 90]]


def test_input_that_takes_too_long_is_harm(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def check(_: bytes) -> None:
        while True:
            pass

    monkeypatch.setattr(run, "HANG_S", 0.05)
    before = signal.signal(signal.SIGPROF, run.hang)
    try:
        watch = run.Watch(check, tmp_path)
        watch(b"endless")
    finally:
        signal.signal(signal.SIGPROF, before)
    (name,) = watch.found
    assert name.startswith("HangError-test_watch-")
