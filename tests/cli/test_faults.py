"""Killed at any moment, two at once, a stick pulled out: the old folder or the new."""

import ctypes
import errno
import json
import os
import random
import socket
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import settings

from stitchpath.cli import exclusive, staging
from stitchpath.cli.folder import write_folder
from stitchpath.errors import OutputError
from tests.support.killed import STATES, WHOLES
from tests.support.output_folders import FIRST, SECOND, fail_at, hidden_places, read_folder

KILLS = 200 if settings().max_examples >= 5000 else 12
"""By night as many as are promised; by day enough to see that it works."""


@pytest.mark.skipif(sys.platform != "linux", reason="the change of places takes two steps")
def test_killed_at_any_moment_the_folder_is_whole(tmp_path: Path) -> None:
    chance = random.Random(7)  # noqa: S311 - no secret
    out = tmp_path / "out"
    write_folder(out, STATES[0])
    (out / "own.txt").write_text("own")
    moments = [str(chance.uniform(0.02, 0.3)) for _ in range(KILLS)]
    ran = subprocess.run(
        [sys.executable, "-m", "tests.support.killed", str(out), *moments],
        check=True,
        capture_output=True,
    )
    assert json.loads(ran.stdout) == [True] * KILLS
    write_folder(out, STATES[1])  # settles whatever the killed ones left
    assert read_folder(out) == WHOLES[1]
    assert hidden_places(tmp_path) == []


def test_two_at_once_in_one_folder_are_told_apart(tmp_path: Path) -> None:
    out = tmp_path / "out"
    write_folder(out, FIRST)
    with staging.staging(out) as place:
        (place / "new").mkdir()
        with pytest.raises(
            OutputError, match=r"another run is writing to `.*out`\nwait until it is done"
        ):
            write_folder(out, SECOND)
        assert (place / "new").is_dir()
        write_folder(tmp_path / "beside", SECOND)  # another folder is no matter
    assert read_folder(out) == FIRST
    write_folder(out, SECOND)
    assert read_folder(out) == SECOND
    assert hidden_places(tmp_path) == []


def test_many_at_once_leave_a_whole_folder_and_nothing_else(tmp_path: Path) -> None:
    out = tmp_path / "out"
    code = (
        "import sys; from pathlib import Path\n"
        "from stitchpath.cli.folder import write_folder\n"
        "from stitchpath.errors import OutputError\n"
        "from tests.support.killed import STATES\n"
        "said = ''\n"
        "for _ in range(20):\n"
        "    try: write_folder(Path(sys.argv[1]), STATES[int(sys.argv[2])])\n"
        "    except OutputError as why: said = str(why)\n"
        "assert said == '' or 'another run is writing' in said, said\n"
    )
    runs = [
        subprocess.Popen([sys.executable, "-c", code, str(out), str(n % 2)]) for n in range(3)
    ]
    assert [run.wait(60) for run in runs] == [0, 0, 0]
    assert read_folder(out) in STATES
    assert hidden_places(tmp_path) == []


@pytest.mark.skipif(sys.platform != "linux", reason="kills a forked process")
@pytest.mark.parametrize(
    ("how", "wholes"),
    [("at once", {"old", "new"}), ("in two steps", {"old", "new", "none"})],
)
def test_killed_at_each_call_to_the_system_nothing_is_lost_or_left(
    tmp_path: Path, how: str, wholes: set[str]
) -> None:
    ran = subprocess.run(
        [sys.executable, "-m", "tests.support.killed_at", str(tmp_path), how, str(KILLS)],
        check=True,
        capture_output=True,
        timeout=600,
    )
    rows = json.loads(ran.stdout)
    assert len(rows) > 40 + KILLS  # a run of four files has so many calls, and more
    assert {row["whole"] for row in rows} == wholes
    assert {row["places"] for row in rows} == {0, 1}
    assert {row["settled"] for row in rows} == {True}
    assert {row["places_after"] for row in rows} == {0}


@pytest.mark.parametrize("nth", [1, 3, 5])
def test_a_stick_that_is_pulled_out_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, nth: int
) -> None:
    """The disk's folder vanishes while files are written."""
    stick, real, calls = tmp_path / "stick", os.fsync, 0
    stick.mkdir()

    def fsync(handle: int) -> None:
        nonlocal calls
        calls += 1
        if calls == nth:
            stick.rename(tmp_path / "pulled out")
        real(handle)

    monkeypatch.setattr(os, "fsync", fsync)
    with pytest.raises(OutputError, match=r"its disk or the folder it is in is gone\n"):
        write_folder(stick / "out", FIRST)
    assert not stick.exists()


@pytest.mark.parametrize(
    "code", [errno.EIO, errno.ENODEV, errno.ESTALE, errno.EROFS, errno.EFBIG]
)
def test_a_disk_that_fails_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, code: int
) -> None:
    out = tmp_path / "out"
    write_folder(out, FIRST)

    def fails(_handle: int) -> None:
        raise OSError(code, os.strerror(code))

    with monkeypatch.context() as patch:
        patch.setattr(os, "fsync", fails)
        with pytest.raises(OutputError, match=r"(its disk|the disk) .*\nnothing was changed"):
            write_folder(out, SECOND)
    assert read_folder(out) == FIRST
    assert hidden_places(tmp_path) == []


def test_an_exchange_that_does_not_work_changes_nothing(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "out"
    write_folder(out, FIRST)

    def fails(_one: Path, _other: Path) -> bool:
        raise OSError(errno.EBUSY, "Device or resource busy")

    with monkeypatch.context() as patch:
        patch.setattr(staging, "exchange", fails)
        with pytest.raises(OutputError, match=r"Device or resource busy\nnothing was changed"):
            write_folder(out, SECOND)
    assert read_folder(out) == FIRST
    assert hidden_places(tmp_path) == []


def test_two_folders_change_places_in_one_step(tmp_path: Path) -> None:
    one, other = tmp_path / "one", tmp_path / "other"
    for folder in (one, other):
        folder.mkdir()
        (folder / folder.name).touch()
    assert exclusive.exchange(one, other) is (sys.platform == "linux")
    if sys.platform == "linux":
        assert (one / "other").exists()
        assert (other / "one").exists()
        with pytest.raises(FileNotFoundError):
            exclusive.exchange(one, tmp_path / "gone")


def test_other_systems_go_without(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with monkeypatch.context() as patch:
        patch.setattr(sys, "platform", "win32")
        assert not exclusive.exchange(tmp_path, tmp_path)
        patch.setitem(sys.modules, "fcntl", None)
        with exclusive.locked(tmp_path / "nothing", wait=True) as held:
            assert held
        write_folder(tmp_path / "out", FIRST)
        write_folder(tmp_path / "out", SECOND)
    assert read_folder(tmp_path / "out") == SECOND


_ALIEN = """
import sys
for name in ("fcntl", "resource", "pwd", "grp", "termios"):
    sys.modules[name] = None
from stitchpath.cli import main
for words in sys.stdin:
    sys.argv[1:] = words.split()
    try:
        main()
    except SystemExit as done:
        assert done.code == 0, words
"""
"""Command lines, one after another, without what only some systems have."""


def test_nothing_that_only_some_systems_have_is_needed(tmp_path: Path) -> None:
    (tmp_path / "mat.toml").write_text(
        '[quilt]\nwidth = 120\nlength = 120\n[machine]\nformats = ["dst", "jef"]\n'
    )
    ran = subprocess.run(
        [sys.executable, "-c", _ALIEN],
        cwd=tmp_path,
        env={**os.environ, "PYTHONPATH": str(Path(__file__).parents[2])},
        input=b"make mat.toml --out mat\ninspect mat\npreview mat.toml --out a.svg\n",
        capture_output=True,
        check=False,
        timeout=120,
    )
    assert ran.returncode == 0, ran.stderr.decode()
    assert (tmp_path / "a.svg").is_file()


@pytest.mark.parametrize("fault", [NotImplementedError, PermissionError])
def test_the_makers_own_stays_where_links_cannot_be_made(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fault: type[Exception]
) -> None:
    def refuses(*_: object, **__: object) -> None:
        raise fault

    out = tmp_path / "out"
    write_folder(out, FIRST)
    (out / "own.txt").write_text("own")
    monkeypatch.setattr(os, "link", refuses)
    write_folder(out, SECOND)
    assert read_folder(out) == {**SECOND, "own.txt": b"own"}


def test_a_folder_with_another_disk_in_it_is_left_alone(small_disk: Path) -> None:
    """All in it would be copied to the new folder, and removed from the disk with the old."""
    (small_disk / "letters").write_text("the only copy")
    with pytest.raises(OutputError, match=f"`{small_disk}` is another disk\n"):
        write_folder(small_disk.parent, FIRST)
    assert read_folder(small_disk) == {"letters": b"the only copy"}


def test_strange_things_in_a_folder_stay(tmp_path: Path) -> None:
    out = tmp_path / "out"
    write_folder(out, FIRST)
    os.mkfifo(out / "pipe")
    with socket.socket(socket.AF_UNIX) as listening:
        listening.bind(os.path.relpath(out / "socket"))
    (out / "round").symlink_to(out, target_is_directory=True)
    (out / "nowhere").symlink_to("gone")
    odd = [
        os.fsdecode(b"\xff\xfe"),
        "a\nb",
        "\x1b[31m",
        "-rf *",
        ".stitchpath-own",
        "~",
        "é" * 100,
    ]
    for name in odd:
        (out / name).mkdir()
        (out / name / name).write_text("own")
    os.link(out / "~" / "~", out / "another name")
    (out / "bare").mkdir(mode=0o500)
    before = sorted(path.relative_to(out) for path in out.rglob("*"))
    write_folder(out, SECOND)
    write_folder(out, FIRST)
    assert sorted(path.relative_to(out) for path in out.rglob("*")) == before
    assert all((out / name / name).read_text() == "own" for name in odd)
    assert (out / "another name").samefile(out / "~" / "~")
    assert (out / "pipe").is_fifo()
    assert (out / "socket").is_socket()
    assert (out / "bare").stat().st_mode & 0o777 == 0o500


def test_a_lock_is_held_once_and_ends_with_its_holder(tmp_path: Path) -> None:
    with (
        exclusive.locked(tmp_path, wait=False) as first,
        exclusive.locked(tmp_path, wait=False) as second,
    ):
        assert (first, second) == (True, False)
    with exclusive.locked(tmp_path, wait=False) as third:
        assert third


def test_a_system_or_disk_that_cannot_takes_two_steps(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    class OldLibrary:
        def __init__(self, *_: object, **__: object) -> None:
            pass

    class Refusing(OldLibrary):
        @staticmethod
        def renameat2(*_: object) -> int:
            ctypes.set_errno(errno.EINVAL)
            return -1

    for library in (OldLibrary, Refusing):
        monkeypatch.setattr(ctypes, "CDLL", library)
        assert not exclusive.exchange(tmp_path / "one", tmp_path / "other")


def test_a_disk_without_locks_is_written_to(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuses(_handle: int, _how: int) -> None:
        raise OSError(errno.ENOLCK, "No locks available")

    monkeypatch.setattr("fcntl.flock", refuses)
    write_folder(tmp_path / "out", FIRST)
    assert read_folder(tmp_path / "out") == FIRST


def test_a_place_that_cannot_be_locked_is_taken_away(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with monkeypatch.context() as patch:
        too_many = OSError(errno.EMFILE, "Too many open files")
        fail_at(patch, "open", 2, too_many)  # the first is for the folder above
        with pytest.raises(OutputError, match="Too many open files"):
            write_folder(tmp_path / "out", FIRST)
    assert list(tmp_path.iterdir()) == []
