"""A single file comes whole, and never over another."""

import errno
import os
from collections.abc import Iterator
from pathlib import Path

import pytest

from stitchpath.cli.folder import write_file
from stitchpath.errors import OutputError
from tests.support.output_folders import (
    fail_at,
    hidden_places,
)


@pytest.fixture(autouse=True)
def _nothing_left_behind(tmp_path: Path) -> Iterator[None]:
    yield
    assert hidden_places(tmp_path) == []


def test_file_is_written_and_not_written_over(tmp_path: Path) -> None:
    path = tmp_path / "pictures" / "quilt.svg"
    write_file(path, b"one")
    with pytest.raises(OutputError, match=r"quilt\.svg` exists already\nchoose another name"):
        write_file(path, b"two")
    assert path.read_bytes() == b"one"
    write_file(path, b"two", replace=True)
    assert path.read_bytes() == b"two"


def test_replaced_file_keeps_its_link_and_permissions(tmp_path: Path) -> None:
    (tmp_path / "real.svg").write_bytes(b"one")
    (tmp_path / "real.svg").chmod(0o640)
    (tmp_path / "link.svg").symlink_to("real.svg")
    write_file(tmp_path / "link.svg", b"two", replace=True)
    assert (tmp_path / "link.svg").is_symlink()
    assert (tmp_path / "real.svg").read_bytes() == b"two"
    assert (tmp_path / "real.svg").stat().st_mode & 0o777 == 0o640


@pytest.mark.parametrize("path", ["/dev/null", "/"])
def test_what_is_no_plain_file_is_not_replaced(path: str) -> None:
    with pytest.raises(OutputError, match="is not a plain file"):
        write_file(Path(path), b"", replace=True)


def test_file_that_comes_up_while_writing_is_not_lost(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path, real = tmp_path / "quilt.svg", os.fsync

    def meanwhile(handle: int) -> None:
        path.write_text("another program's")
        real(handle)

    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", meanwhile)
        with pytest.raises(OutputError, match="exists already"):
            write_file(path, b"ours")
    assert path.read_text() == "another program's"


def test_full_disk_leaves_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "quilt.svg"
    write_file(path, b"one")
    with monkeypatch.context() as patch:
        fail_at(patch, "fsync", 1, OSError(errno.ENOSPC, "No space left on device"))
        with pytest.raises(OutputError, match="the disk is full"):
            write_file(path, b"two", replace=True)
    assert path.read_bytes() == b"one"
