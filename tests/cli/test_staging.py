"""Output comes whole or not at all: full disks, interruptions, killed runs."""

import errno
import os
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


def _set_aside(out: Path) -> None:
    """Leave a place as a kill between two renames does, with a folder where the old one was."""
    with staging.staging(out) as place:
        for part in ("old", "new"):
            (place / part).mkdir()
        (place / "old" / "own").write_text("the only copy")
        out.mkdir()


def test_folder_that_came_into_being_after_a_kill_is_not_touched(tmp_path: Path) -> None:
    out = tmp_path / "out"
    with pytest.raises(OutputError, match="came into being while its old state was set aside"):
        _set_aside(out)
    (place,) = tmp_path.glob(".stitchpath-*")
    with pytest.raises(OutputError, match=f"the old state is kept in `{place}/old`"):
        write_folder(out, FIRST)
    assert (place / "old" / "own").read_text() == "the only copy"
    assert list(out.iterdir()) == []
    out.rmdir()
    write_folder(out, FIRST)
    assert (out / "own").read_text() == "the only copy"


@pytest.mark.parametrize("name", ["out2", "other", "\udcff"])
def test_place_of_another_target_is_left_alone(tmp_path: Path, name: str) -> None:
    with staging.staging(tmp_path / name) as place:
        (place / "new").mkdir()
        write_folder(tmp_path / "out", FIRST)
        assert (place / "new").is_dir()
    assert read_folder(tmp_path / "out") == FIRST


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
