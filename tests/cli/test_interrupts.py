"""Ctrl-C at any moment: exit 130, one line, and the folder is as before or as wanted."""

import os
import signal
import subprocess
import time
from pathlib import Path

import pytest

from stitchpath.cli.interrupts import Stopped, held_back, undisturbed, undone_when_stopped
from stitchpath.cli.make import make_project
from tests.support.command_line import COMMAND, DESIGNS, PLAIN, Shell
from tests.support.output_folders import hidden_places, read_folder

_SHARES = (0.02, 0.3, 0.6, 0.8, 0.9, 1.0)
"""Of the time that a whole make takes, from when it answers Ctrl-C; writing comes last."""


def _begin(project: Path, out: Path) -> "subprocess.Popen[str]":
    """Start a make, and wait until it has begun to import what is large."""
    begun = subprocess.Popen(
        [*COMMAND, "make", str(project), "--out", str(out)],
        env=os.environ | PLAIN,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    while "numpy" not in Path(f"/proc/{begun.pid}/maps").read_text(encoding="utf-8"):
        assert begun.poll() is None
        time.sleep(0.002)
    return begun


@pytest.fixture(scope="module")
def wanted(tmp_path_factory: pytest.TempPathFactory) -> tuple[float, dict[str, bytes]]:
    """Give the seconds that a whole make takes, and what it makes."""
    out = tmp_path_factory.mktemp("whole") / "wanted"
    begun = _begin(DESIGNS / "pier-blanket.toml", out)
    start = time.perf_counter()
    begun.communicate()
    assert begun.returncode == 0
    return time.perf_counter() - start, read_folder(out)


@pytest.mark.slow
@pytest.mark.parametrize("is_there", [True, False])
def test_stopped_make_leaves_the_old_or_the_new(
    tmp_path: Path, wanted: tuple[float, dict[str, bytes]], is_there: bool
) -> None:
    out, (seconds, new) = tmp_path / "out", wanted
    old: dict[str, bytes] = {}
    if is_there:
        assert make_project(DESIGNS / "kiosk-corners.toml", out, as_json=True) == 0
        old = read_folder(out)
    outcomes = set()
    for share in _SHARES if is_there else _SHARES[::2]:
        begun = _begin(DESIGNS / "pier-blanket.toml", out)
        time.sleep(share * seconds)
        begun.send_signal(signal.SIGINT)
        _, said = begun.communicate()
        now = read_folder(out)
        assert now in (old, new)
        assert hidden_places(tmp_path) == []
        if begun.returncode:
            assert begun.returncode == 130, said
            assert said.splitlines()[-1] == "stopped; nothing is half written"
            assert "Traceback" not in said
        outcomes.add(begun.returncode)
        if now == new:
            break
    assert 130 in outcomes


def test_stop_while_writing_is_undone(shell: Shell, monkeypatch: pytest.MonkeyPatch) -> None:
    calls = 0
    real = os.fsync

    def fsync(handle: int) -> None:
        nonlocal calls
        calls += 1
        if calls == 3:
            os.kill(os.getpid(), signal.SIGINT)
        real(handle)

    monkeypatch.setattr(os, "fsync", fsync)
    ran = shell.run("stitchpath make rug.toml --out rug")
    assert (ran.code, ran.out, ran.err) == (130, "", "stopped; nothing is half written\n")
    assert not (shell.folder / "rug").exists()
    assert hidden_places(shell.folder) == []


def test_stop_while_places_are_changed_comes_after(
    shell: Shell, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = Path.rename

    def rename(path: Path, target: Path) -> Path:
        os.kill(os.getpid(), signal.SIGINT)
        return real(path, target)

    monkeypatch.setattr(Path, "rename", rename)
    ran = shell.run("stitchpath make rug.toml --out rug")
    assert (ran.code, ran.err) == (130, "stopped; nothing is half written\n")
    assert (shell.folder / "rug" / "plan.json").is_file()
    assert hidden_places(shell.folder) == []


def _work(done: list[str]) -> None:
    with undone_when_stopped():
        with undisturbed():
            os.kill(os.getpid(), signal.SIGINT)
            done.append("all of it")
        done.append("what comes after")


def test_undisturbed_puts_a_stop_off() -> None:
    done: list[str] = []
    with pytest.raises(Stopped):
        _work(done)
    assert done == ["all of it"]


def _hold(done: list[str]) -> None:
    with undone_when_stopped():
        with held_back():
            os.kill(os.getpid(), signal.SIGINT)
            done.append("all of it")
        done.append("what comes after")


def test_held_back_stop_comes_at_the_end() -> None:
    done: list[str] = []
    with pytest.raises(Stopped):
        _hold(done)
    assert done == ["all of it"]


def test_systems_without_a_mask_go_without(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delattr(signal, "pthread_sigmask")
    with held_back():
        pass


def test_handler_of_before_comes_back() -> None:
    before = signal.getsignal(signal.SIGINT)
    with undone_when_stopped(), undisturbed():
        assert signal.getsignal(signal.SIGINT) != before
    assert signal.getsignal(signal.SIGINT) == before
