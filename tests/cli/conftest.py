"""A folder with projects and stitch files, good and bad, and a shell in it."""

import shutil
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.support.command_line import DESIGNS, Shell

_PROJECTS = {
    "wide.toml": "[quilt]\nwidth = 600\nlength = 900\n[batting]\nquilting_distance = 40\n",
    "misfit.toml": (
        'units = "in"\n[quilt]\nwidth = 36\nlength = 48\nquilting = []\nedge_stitch = 0\n'
        "[pocket]\nwidth = 12\nlength = 12\nquilting = []\nmouth_stitch = 0\n"
        "[pocket.seam]\ncorner_side = 3\ncorner_across = 3\n"
        '[machine]\nfield = ["50 mm", "50 mm"]\n'
    ),
    "hushed.toml": (
        "[quilt]\nwidth = 600\nlength = 900\n[batting]\nquilting_distance = 40\n"
        "[machine]\nspeed = 900\n"
        '[[checks.silence]]\ncheck = "batting-gap"\nreason = "tied by hand between the lines"\n'
        '[[checks.silence]]\ncheck = "edge"\nreason = "bound later"\n'
    ),
    "nothing.toml": "[quilt]\nwidth = 600\nlength = 900\nquilting = []\nedge_stitch = 0\n",
    "huge.toml": (
        "[quilt]\nwidth = 6000\nlength = 300\nquilting = []\n"
        '[machine]\nfield = ["6100 mm", "400 mm"]\n'
    ),
    "wrong.toml": '[quilt]\nwidth = "wide"\nlenght = 900\n',
    "unclosed.toml": 'name = "Harbour\n',
    "named.toml": (
        'name = "Müllers [red]<b>&amp;</b>[/red] 🧵 שלום"\n[quilt]\nwidth = 300\nlength = 400\n'
    ),
}


@pytest.fixture
def shell(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> Shell:
    """Give a shell in a folder with `rug.toml` and more."""
    shutil.copy(DESIGNS / "kiosk-corners.toml", tmp_path / "rug.toml")
    for name, text in _PROJECTS.items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    (tmp_path / "folder").mkdir()
    (tmp_path / "notes.txt").write_text("the maker's own\n")
    return Shell(folder=tmp_path, monkeypatch=monkeypatch, capsys=capsys)


@pytest.fixture
def with_files(shell: Shell) -> Shell:
    """Give a shell in a folder that has stitch files as well: `rug/seam/01.dst` and others."""
    assert shell.run("stitchpath make rug.toml --out rug").code == 0
    data = (shell.folder / "rug" / "seam" / "01.dst").read_bytes()
    (shell.folder / "upper.DST").write_bytes(data)
    (shell.folder / "short.dst").write_bytes(data[:100])
    (shell.folder / "named-wrongly.pes").write_bytes(data)
    (shell.folder / "empty.exp").write_bytes(b"")
    return shell


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """Give a disk of 40 kB, where one can be had."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mount = ["mount", "-t", "tmpfs", "-o", "size=40k", "none", str(disk)]
    try:
        subprocess.run(mount, check=True, capture_output=True)
    except (OSError, subprocess.CalledProcessError):
        pytest.skip("no disk may be mounted here; full disks are in test_staging.py as well")
    yield disk
    subprocess.run(["umount", str(disk)], check=True)
