"""Designs of a project: files beside it, read like any stranger's, and written again."""

import json
import os
import re
from pathlib import Path

import numpy as np
import pytest

from stitchpath.cli import designs
from stitchpath.cli.designs import design_loader
from stitchpath.cli.reading import StitchReader, stitch_reader
from stitchpath.machine import sewn_part
from stitchpath.model.design import DesignFile
from stitchpath.model.stitches import Op, Stitches
from tests.support.command_line import DESIGNS, Shell

HERON = (DESIGNS / "heron.exp").read_bytes()
PROJECT = """
[quilt]
width = 200
length = 240
quilting = []
edge_stitch = 0
[[quilt.design]]
file = "heron.exp"
at = [101.23, 120]
[machine]
formats = ["exp", "dst", "pes"]
"""


@pytest.fixture
def home(shell: Shell) -> Path:
    """Make a folder with a project, its design, and one file above it."""
    folder = shell.folder / "home"
    (folder / "below").mkdir(parents=True)
    (shell.folder / "above.exp").write_bytes(HERON)
    (folder / "heron.exp").write_bytes(HERON)
    (folder / "below" / "HERON.EXP").write_bytes(HERON)
    (folder / "project.toml").write_text(PROJECT, encoding="utf-8")
    (folder / "empty.exp").write_bytes(b"")
    (folder / "one.exp").write_bytes(b"\x05\x05")  # a step of half a millimetre each way
    (folder / "notes.txt").write_text("none of ours")
    (folder / "out.exp").symlink_to(shell.folder / "above.exp")
    os.mkfifo(folder / "pipe.exp")
    return folder


def load(home: Path, name: str) -> DesignFile:
    with stitch_reader() as reader:
        return design_loader(home, reader)(name)


@pytest.mark.parametrize("name", ["heron.exp", "below/HERON.EXP", "./heron.exp"])
def test_file_in_the_folder_or_below_is_read(home: Path, name: str) -> None:
    design = load(home, name)
    assert design.source == name
    assert len(design.stitches.needle_points) == 210


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("../above.exp", "without `/` or `..`"),
        ("/etc/heron.exp", "without `/` or `..`"),
        ("C:\\heron.exp", "without `/` or `..`"),
        ("out.exp", "leads out of the project's folder"),
        ("pipe.exp", "no file"),
        ("below", "no file"),
        ("none.exp", "no such file"),
        ("empty.exp", "it holds no stitches"),
        ("one.exp", "it has one needle point, and it takes two to sew"),
        ("notes.txt", "neither its name nor its content says"),
        ("", "no file"),
    ],
)
def test_name_of_anything_else_is_refused(home: Path, name: str, why: str) -> None:
    with pytest.raises(ValueError, match=why):
        load(home, name)


def test_file_that_is_cut_short_is_refused(home: Path, shell: Shell) -> None:
    assert shell.run("stitchpath make home/project.toml --out made").code == 0
    data = (shell.folder / "made/quilt/01.dst").read_bytes()
    (home / "short.dst").write_bytes(data[: len(data) // 2])
    with pytest.raises(ValueError, match=r"the file is cut short: .*end mark"):
        load(home, "short.dst")


def test_large_file_is_refused_without_reading_it_all(home: Path) -> None:
    with (home / "large.exp").open("wb") as file:
        file.truncate(10**12)  # sparse: a terabyte that takes no room
    with pytest.raises(ValueError, match="larger than any hooping; the limit is"):
        load(home, "large.exp")


def test_design_of_too_many_stitches_is_refused(
    home: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(designs, "MOST_STITCHES", 209)
    with pytest.raises(ValueError, match="it has 210 stitches; a design has at most 209"):
        load(home, "heron.exp")


def test_problem_with_a_design_is_shown_with_its_place(home: Path, shell: Shell) -> None:
    text = PROJECT.replace("heron.exp", "egret.exp")
    (home / "project.toml").write_text(text, encoding="utf-8")
    result = shell.run("stitchpath check home/project.toml")
    assert result.code == 1
    assert (
        "error[not-a-design]: `quilt.design[0].file` cannot be read as a design" in result.err
    )
    assert "home/project.toml:8:8 (quilt.design[0].file)" in result.err
    assert "= note: there is no such file in the project's folder" in result.err
    assert "Traceback" not in result.err


@pytest.mark.parametrize("ending", ["exp", "dst", "pes"])
def test_written_file_has_the_moves_of_the_design_and_its_counts(
    home: Path, shell: Shell, ending: str
) -> None:
    """The heron ties its own thread, so that nothing is added to it."""
    assert shell.run("stitchpath make home/project.toml --out made").code == 0
    with stitch_reader() as reader:
        source = read(reader, home / "heron.exp")
        written = read(reader, shell.folder / f"made/quilt/01.{ending}")
    assert (written.op == Op.STITCH).sum() == (source.op == Op.STITCH).sum()
    assert (written.op == Op.CUT).sum() == (source.op == Op.CUT).sum()
    assert np.array_equal(steps(written), steps(source))


def read(reader: StitchReader, path: Path) -> Stitches:
    return sewn_part(reader.read(path).read)


def steps(stitches: Stitches) -> np.ndarray:
    """Return the way from each needle point to the next, in tenths of a mm."""
    return np.diff(np.rint(stitches.needle_points * 10).astype(int), axis=0)


@pytest.mark.usefixtures("home")
def test_plan_tells_what_the_design_came_to(shell: Shell) -> None:
    assert shell.run("stitchpath make home/project.toml --out made").code == 0
    plan = json.loads((shell.folder / "made/plan.json").read_text(encoding="utf-8"))
    assert plan["stages"][0]["designs"] == [
        {
            "file": "heron.exp", "copies": 1, "stitches": 210, "runs": 5, "left_out": 0,
            "needle_points": "kept", "size": [76.0, 104.6], "colours": [None], "sewn": 210,
            "ties": 0, "divided": 0, "divided_runs": 0,
        }
    ]  # fmt: skip
    (hooping,) = plan["stages"][0]["hoopings"]
    assert (hooping["stitches"], hooping["runs"], hooping["thread_cuts"]) == (210, 5, 4)


def test_threads_that_a_hooping_stops_for_are_told_in_the_order_of_sewing(
    home: Path, shell: Shell
) -> None:
    assert shell.run("stitchpath make home/project.toml --out made").code == 0
    one = (shell.folder / "made/quilt/01.exp").read_bytes()
    (home / "heron.exp").write_bytes(one + b"\x80\x01\x00\x00" + one)  # a change of colour
    result = shell.run("stitchpath make home/project.toml --out two")
    assert result.code == 0
    order = (shell.folder / "two/sewing-order.txt").read_text(encoding="utf-8")
    assert re.search(r"threads +the machine stops for another colour for heron.exp", order)
    plan = json.loads((shell.folder / "two/plan.json").read_text(encoding="utf-8"))
    assert plan["totals"]["pauses"] == 1
