"""What is slow to import is imported by those commands only that need it."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests.support.command_line import DESIGNS, run_outside

_DRAWING = {"svgwrite", "reportlab", "PIL", "resvg_py"}
_NEVER_AT_ONCE = _DRAWING | {
    "HersheyFonts",
    "ezdxf",
    "highspy",
    "pyembroidery",
    "rich",
    "scipy",
    "svgelements",
}
_SLOW = _NEVER_AT_ONCE | {"numpy", "shapely", "webcolors"}
_STAGES = {f"stitchpath.{room}" for room in ("hoopings", "pipeline", "route", "sewing")}
_REPORT = """
import sys
from stitchpath.cli import main
try:
    main()
finally:
    print("imported:", *sys.modules, file=sys.stderr)
"""


def _imported(*words: str | Path, code: int = 0) -> set[str]:
    """Return the modules that a command imports; it ends with an exit code."""
    done = subprocess.run(
        [sys.executable, "-c", _REPORT, *map(str, words)],
        capture_output=True,
        check=False,
        text=True,
    )
    assert done.returncode == code, done.stderr
    return set(done.stderr.rpartition("imported:")[2].split())


@pytest.mark.parametrize("words", ["--help", "--version"])
def test_help_imports_nothing_slow(words: str) -> None:
    assert _imported(words) & (_SLOW | {"pydantic"}) == set()


@pytest.mark.parametrize("words", ["make --help", "list formats", "list papers --json"])
def test_short_answer_imports_nothing_slow(words: str) -> None:
    # pydantic is imported by the command library itself, for any command
    assert _imported(*words.split()) & _SLOW == set()


def test_list_of_layouts_needs_the_layouts_alone() -> None:
    assert _imported("list", "layouts") & (_NEVER_AT_ONCE | _STAGES) == set()


def test_problems_of_a_project_are_told_before_anything_is_planned(tmp_path: Path) -> None:
    (tmp_path / "throw.toml").write_text('[quilt]\nwidth = "wide"\nlength = 1200\n')
    for command in ("check", "count"):
        found = _imported(command, tmp_path / "throw.toml", code=1)
        assert "stitchpath.project.problems" in found
        assert found & (_NEVER_AT_ONCE | _STAGES) == set()


def test_a_project_is_checked_without_drawing() -> None:
    found = _imported("check", DESIGNS / "kiosk-corners.toml")
    assert "stitchpath.pipeline" in found
    assert found & _NEVER_AT_ONCE == set()


def test_a_project_is_made_without_what_tests_compare_with(tmp_path: Path) -> None:
    """One with a widest gap between lines with loose ends, and hoopings by a programme."""
    found = _imported("make", DESIGNS / "ferry-throw.toml", "--out", tmp_path / "made")
    assert "highspy" in found
    assert found & {"networkx", "scipy"} == set()


@pytest.mark.parametrize("command", ["count", "inspect"])
def test_a_stitch_file_is_read_without_planning_or_drawing(
    command: str, tmp_path: Path
) -> None:
    run_outside("corner", "--out", "corner.dst", cwd=tmp_path)
    found = _imported(command, tmp_path / "corner.dst")
    assert "stitchpath.machine.dst_decode" in found
    assert found & (_NEVER_AT_ONCE | _STAGES) == set()


def test_a_stitch_file_of_our_own_tables_is_made_without_the_library(tmp_path: Path) -> None:
    found = _imported("corner", "--out", tmp_path / "corner.exp")
    assert "stitchpath.machine.exp" in found
    assert "pyembroidery" not in found


def test_a_command_has_one_thread_so_that_it_can_share_its_work() -> None:
    code = f"""{_REPORT}
    import os, numpy, shapely, highspy
    print(len(os.listdir("/proc/self/task")), file=sys.stderr)
"""
    done = subprocess.run(
        [sys.executable, "-c", code, "list", "layouts"],
        capture_output=True,
        check=True,
        text=True,
    )
    assert done.stderr.splitlines()[-1] == "1"
