"""How long the parts take on a king-size quilt, and all of it against the library alone.

Run once as tests by default; timed by `pytest tests/bench --benchmark-enable --benchmark-only`.
docs/performance.md says how to read the figures.
"""

import resource
import shutil
import subprocess
import sys
from collections.abc import Mapping
from io import BytesIO
from pathlib import Path

import pytest
from pypdf import PdfReader
from pytest_benchmark.fixture import BenchmarkFixture

from stitchpath.catalog.formats import FORMATS
from stitchpath.checks import check_plan
from stitchpath.cli.files import load_project
from stitchpath.machine import decode, stitch_file
from stitchpath.model.plan import Plan, SewnHooping
from stitchpath.model.project import Project
from stitchpath.pipeline import plan
from stitchpath.preview import draw_hooping, draw_stage
from stitchpath.preview.templates import draw_templates
from stitchpath.sewing import sew
from tests.bench.corpus import KING, THROW
from tests.bench.library_rows import library_rows
from tests.support.command_line import COMMAND
from tests.support.made_folder import MadeFolder
from tests.support.timing import timed

pytestmark = pytest.mark.slow

_ALONE = Path(__file__).parent / "library_alone.py"
_ROUNDS = 5
_LEAST_STITCHES = 400_000


@pytest.fixture(scope="module")
def king() -> Project:
    """Give the king-size quilt's project."""
    return load_project(KING)


@pytest.fixture(scope="module")
def planned(king: Project) -> Plan:
    """Give its plan."""
    return plan(king)


def _hooped(planned: Plan) -> list[SewnHooping]:
    return [sewn for stage in planned.stages for sewn in stage.hoopings]


def test_planning(benchmark: BenchmarkFixture, king: Project) -> None:
    done = timed(benchmark, lambda: plan(king), rounds=_ROUNDS)
    assert done.figures.stitches >= _LEAST_STITCHES
    assert not done.has_errors


def test_checking(benchmark: BenchmarkFixture, planned: Plan) -> None:
    found = timed(benchmark, lambda: check_plan(planned, ()), rounds=_ROUNDS)
    assert set(found) <= set(planned.findings)
    assert "batting-gap" in {finding.code for finding in found}


def test_sewing(benchmark: BenchmarkFixture, planned: Plan) -> None:
    machine = planned.project.machine

    def sew_all() -> int:
        hooped = _hooped(planned)
        return sum(len(sew(one.runs, machine, draws_up=False)) for one in hooped)

    rows = timed(benchmark, sew_all, rounds=_ROUNDS)
    assert rows == sum(len(one.stitches) for one in _hooped(planned))


def test_writing(benchmark: BenchmarkFixture, planned: Plan) -> None:
    (stage,) = planned.stages

    def write_all() -> list[bytes]:
        return [
            stitch_file(
                one.stitches, one.hooping, format=FORMATS["dst"], name="k", thread=stage.thread
            )
            for one in stage.hoopings
        ]

    files = timed(benchmark, write_all, rounds=_ROUNDS)
    read = sum(len(decode(data, ".dst").needle_points_units) for data in files)
    assert read == planned.figures.stitches


def test_drawing(benchmark: BenchmarkFixture, planned: Plan) -> None:
    (stage,) = planned.stages

    def draw_all() -> list[str]:
        hoopings = [draw_hooping(planned, stage, one) for one in stage.hoopings]
        return [draw_stage(planned, stage), *hoopings]

    pictures = timed(benchmark, draw_all, rounds=_ROUNDS)
    assert len(pictures) == len(stage.hoopings) + 1
    assert all(picture.rstrip().endswith("</svg>") for picture in pictures)


def test_drawing_templates(benchmark: BenchmarkFixture, planned: Plan) -> None:
    data = timed(benchmark, lambda: draw_templates(planned), rounds=_ROUNDS)
    assert len(PdfReader(BytesIO(data)).pages) >= len(_hooped(planned))


def _timed_make(
    benchmark: BenchmarkFixture, project: Path, out: Path, env: Mapping[str, str]
) -> MadeFolder:
    def make() -> None:
        command = [*COMMAND, "make", str(project), "--out", str(out)]
        subprocess.run(command, check=True, capture_output=True, env=env)

    timed(benchmark, make, before=lambda: _clear(out), rounds=_ROUNDS)
    return MadeFolder.at(out)


def test_whole_process_of_make(
    benchmark: BenchmarkFixture, planned: Plan, tmp_path: Path, installed: Mapping[str, str]
) -> None:
    made = _timed_make(benchmark, KING, tmp_path / "out", installed)
    peak = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss
    benchmark.extra_info["peak_megabytes"] = round(peak / 1024)
    assert made.plan["totals"]["stitches"] == planned.figures.stitches
    assert made.hashes() == made.plan["files"]


def test_whole_process_of_make_for_a_throw(
    benchmark: BenchmarkFixture, tmp_path: Path, installed: Mapping[str, str]
) -> None:
    made = _timed_make(benchmark, THROW, tmp_path / "out", installed)
    assert [stage["name"] for stage in made.plan["stages"]] == ["pocket", "quilt", "seam"]
    for stage in made.plan["stages"]:
        for hooping in stage["hoopings"]:
            assert set(hooping["files"]) == set(FORMATS)
    assert made.hashes() == made.plan["files"]


def test_whole_process_of_the_library_alone(
    benchmark: BenchmarkFixture, planned: Plan, tmp_path: Path
) -> None:
    source, target = tmp_path / "source", tmp_path / "target"
    source.mkdir()
    for one in _hooped(planned):
        (source / f"{one.hooping.number:02}").write_bytes(library_rows(one))

    def write() -> None:
        command = [sys.executable, str(_ALONE), str(source), str(target)]
        subprocess.run(command, check=True, capture_output=True)

    timed(benchmark, write, before=lambda: _clear(target, there=True), rounds=_ROUNDS)
    files = sorted(target.iterdir())
    read = sum(len(decode(file.read_bytes(), ".dst").needle_points_units) for file in files)
    assert read == planned.figures.stitches


@pytest.mark.parametrize(
    "code",
    [
        "import typer",
        "import stitchpath.cli.app",
        "import numpy, shapely, pyembroidery",
    ],
)
def test_start_of(benchmark: BenchmarkFixture, code: str, installed: Mapping[str, str]) -> None:
    def start() -> subprocess.CompletedProcess[bytes]:
        return subprocess.run([sys.executable, "-c", code], check=True, env=installed)

    assert timed(benchmark, start, rounds=4 * _ROUNDS).returncode == 0


def test_start_of_help(benchmark: BenchmarkFixture, installed: Mapping[str, str]) -> None:
    def ask() -> subprocess.CompletedProcess[bytes]:
        command = [*COMMAND, "--help"]
        return subprocess.run(command, check=True, capture_output=True, env=installed)

    assert b"Commands:" in timed(benchmark, ask, rounds=4 * _ROUNDS).stdout


def _clear(folder: Path, *, there: bool = False) -> None:
    shutil.rmtree(folder, ignore_errors=True)
    if there:
        folder.mkdir()
