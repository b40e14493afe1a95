"""Output comes whole or not at all: full disks, interruptions, killed runs."""

import errno
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from stitchpath.cli import staging
from stitchpath.cli.folder import write_file, write_folder
from stitchpath.errors import OutputError
from tests.support.output_folders import (
    FIRST,
    SECOND,
    cannot_exchange,
    fail_at,
    hidden_places,
    made_files,
    read_folder,
)
from tests.support.permissions import as_somebody


@pytest.fixture(autouse=True)
def _nothing_left_behind(tmp_path: Path) -> Iterator[None]:
    yield
    assert hidden_places(tmp_path) == []


def test_missing_permission_is_said(tmp_path: Path) -> None:
    locked = tmp_path / "locked"
    locked.mkdir()
    locked.chmod(0o555)
    missing = r"permission is missing\nnothing was changed"
    with as_somebody(), pytest.raises(OutputError, match=missing):
        write_folder(locked / "out", FIRST)
    locked.chmod(0o755)
    assert list(locked.iterdir()) == []


@pytest.mark.parametrize("nth", range(1, 5))  # as many files as there are
def test_full_disk_leaves_the_old_state(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, nth: int
) -> None:
    out = tmp_path / "out"
    write_folder(out, FIRST)
    (out / "own").write_text("own")
    before = read_folder(out)
    with monkeypatch.context() as patch:
        fail_at(patch, "fsync", nth, OSError(errno.ENOSPC, "No space left on device"))
        with pytest.raises(OutputError, match=r"the disk is full\nnothing was changed"):
            write_folder(out, SECOND)
    assert read_folder(out) == before


def test_full_disk_takes_the_made_parents_away_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        fail_at(patch, "fsync", 2, OSError(errno.ENOSPC, "No space left on device"))
        with pytest.raises(OutputError, match="the disk is full"):
            write_folder(tmp_path / "a" / "b" / "out", FIRST)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("name", "nth"), [("fsync", 1), ("fsync", 4), ("rename", 1), ("rename", 2)]
)
def test_interruption_leaves_the_old_state(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str, nth: int
) -> None:
    out = tmp_path / "out"
    write_folder(out, FIRST)
    with monkeypatch.context() as patch:
        patch.setattr(staging, "exchange", cannot_exchange)
        fail_at(patch, name, nth, KeyboardInterrupt())
        with pytest.raises(KeyboardInterrupt):
            write_folder(out, SECOND)
    assert read_folder(out) == FIRST


@pytest.mark.parametrize("nth", [1, 2])
def test_rename_that_does_not_work_is_undone(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, nth: int
) -> None:
    out = tmp_path / "out"
    write_folder(out, FIRST)
    with monkeypatch.context() as patch:
        patch.setattr(staging, "exchange", cannot_exchange)
        fail_at(patch, "rename", nth, OSError(errno.EBUSY, "Device or resource busy"))
        with pytest.raises(OutputError, match="Device or resource busy\nnothing was changed"):
            write_folder(out, SECOND)
    assert read_folder(out) == FIRST


def test_disk_without_hard_links_gets_copies(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def no_links(*_: object, **__: object) -> None:
        raise OSError(errno.EPERM, "Operation not permitted")

    monkeypatch.setattr(os, "link", no_links)
    out = tmp_path / "out"
    write_folder(out, FIRST)
    (out / "own").write_text("own")
    (out / "link").symlink_to("own")
    write_folder(out, SECOND)
    write_file(out / "one.svg", b"new")
    assert read_folder(out) == {**SECOND, "own": b"own", "link": b"own", "one.svg": b"new"}
    assert (out / "link").is_symlink()


_KILLED = """
import os, signal, sys
from pathlib import Path
from stitchpath.cli import staging
from stitchpath.cli import staging
from stitchpath.cli.folder import write_folder
from tests.support.output_folders import SECOND, cannot_exchange
if sys.argv[4] == "in two steps":
    staging.exchange = cannot_exchange
name, nth, calls = sys.argv[2], int(sys.argv[3]), 0
real = getattr(os, name)
def call(*args, **kwargs):
    global calls
    calls += 1
    if calls == nth:
        os.kill(os.getpid(), signal.SIGKILL)
    return real(*args, **kwargs)
setattr(os, name, call)
write_folder(Path(sys.argv[1]), SECOND)
"""


@pytest.mark.parametrize(
    ("name", "nth", "how", "whole"),
    [
        ("fsync", 3, "at once", "old"),  # while writing
        ("fsencode", 1, "at once", "old"),  # right before the change
        ("fsync", 8, "at once", "new"),  # right after it
        ("rmdir", 1, "at once", "new"),  # while the old is removed
        ("fsync", 3, "in two steps", "old"),
        ("rename", 1, "in two steps", "old"),  # before the old is set aside
        ("rename", 2, "in two steps", "none"),  # between the two
        ("rename", 3, "in two steps", "new"),  # before the old is marked as gone
        ("unlink", 1, "in two steps", "new"),  # while the old is removed
        ("rmdir", 1, "in two steps", "new"),
    ],
)
def test_killed_run_loses_nothing_and_the_next_one_settles_it(
    tmp_path: Path, name: str, nth: int, how: str, whole: str
) -> None:
    out = tmp_path / "out"
    write_folder(out, FIRST)
    (out / "own").write_text("own")
    killed = subprocess.run(
        [sys.executable, "-c", _KILLED, str(out), name, str(nth), how],
        env={**os.environ, "PYTHONPATH": os.curdir},
        check=False,
    )
    assert killed.returncode == -9
    assert len(hidden_places(tmp_path)) == 1
    states = {"old": FIRST, "new": SECOND}
    if whole == "none":
        assert not out.exists()
    else:
        assert read_folder(out) == {**states[whole], "own": b"own"}
    third = made_files(booklet_html="third")
    write_folder(out, third)
    assert read_folder(out) == {**third, "own": b"own"}


def test_folder_that_came_into_being_after_a_kill_is_not_touched(tmp_path: Path) -> None:
    place = tmp_path / ".stitchpath-killed"
    (place / "old").mkdir(parents=True)
    (place / "new").mkdir()
    (place / "old" / "own").write_text("the only copy")
    (place / "unfinished").write_text("unfinished output of stitchpath for\nout\n")
    (tmp_path / "out").mkdir()
    with pytest.raises(OutputError, match=r"the old state is kept in `.*killed/old`"):
        write_folder(tmp_path / "out", FIRST)
    assert (place / "old" / "own").read_text() == "the only copy"
    assert list((tmp_path / "out").iterdir()) == []
    (tmp_path / "out").rmdir()
    write_folder(tmp_path / "out", FIRST)
    assert (tmp_path / "out" / "own").read_text() == "the only copy"


@pytest.mark.parametrize(
    "mark", [None, "unfinished output of stitchpath for\nanother\n", "\xff"]
)
def test_hidden_folder_that_is_not_this_runs_is_left_alone(
    tmp_path: Path, mark: str | None
) -> None:
    place = tmp_path / ".stitchpath-other"
    (place / "new").mkdir(parents=True)
    if mark is not None:
        (place / "unfinished").write_bytes(mark.encode("latin-1"))
    write_folder(tmp_path / "out", FIRST)
    assert (place / "new").is_dir()
    assert read_folder(tmp_path / "out") == FIRST
    shutil.rmtree(place)


def test_folder_that_cannot_be_looked_through_is_not_replaced(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out, real = tmp_path / "out", os.scandir
    write_folder(out, FIRST)
    (out / "private").mkdir()
    (out / "private" / "own").write_text("own")

    def closed(path: str) -> object:
        if str(path).endswith("private"):
            raise PermissionError(errno.EACCES, "Permission denied", path)
        return real(path)

    with monkeypatch.context() as patch:
        patch.setattr(os, "scandir", closed)
        with pytest.raises(OutputError, match="permission is missing"):
            write_folder(out, SECOND)
    assert read_folder(out) == {**FIRST, "private/own": b"own"}
