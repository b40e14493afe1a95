"""The table of goals, a test for each row: how long or how large, against what, in one run.

Timed by `pytest tests/bench/test_goals.py --benchmark-enable --benchmark-only`; the table is
printed at the end. Run once as tests by default, on the smallest quilt that tells. Nothing is
asserted of times: shared machines are too uneven.
"""

import shutil
import subprocess
import sys
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Final

import numpy as np
import pytest
import shapely
from pytest_benchmark.fixture import BenchmarkFixture

from stitchpath.catalog.formats import FORMATS
from stitchpath.checks import needle_crowding, thread_passes
from stitchpath.cli.files import load_project
from stitchpath.geometry.points import segment_lengths
from stitchpath.machine.codecs import CODECS
from stitchpath.machine.compare import check_read_back
from stitchpath.machine.decode import decode
from stitchpath.machine.records import make_records, round_to_units
from stitchpath.machine.rows import Label, Records
from stitchpath.model.finding import Finding
from stitchpath.model.plan import Plan, SewnHooping
from stitchpath.model.stitches import Stitches
from stitchpath.pipeline import plan
from stitchpath.sewing import sew
from stitchpath.sewing.limits import StitchLimits
from stitchpath.sewing.sample import Sampled, sample_paths
from tests.bench.corpus import KING, LAP, THROW, VAST_SIDES_MM, write_vast
from tests.bench.library_rows import library_rows
from tests.support.command_line import COMMAND
from tests.support.library_files import pattern_of, with_extents_from_the_start, written
from tests.support.made_folder import MadeFolder
from tests.support.processes import peak_bytes
from tests.support.timing import Table, timed

pytestmark = pytest.mark.slow

_ALONE: Final = Path(__file__).parent / "library_alone.py"
_ROUNDS: Final = 7
_LABEL: Final = Label(name="quilt01", colour="#000000")
_SMALL_MM: Final = 300
"""Side of the vast quilt where nothing is timed: 5,600 stitches."""
_BYTES_A_STITCH: Final = 18
"""What a plan keeps of each: two float64, what is done, whether it ties."""


@pytest.fixture(scope="module")
def planned(request: pytest.FixtureRequest) -> Plan:
    """Give the plan of the king-size quilt, or of the lap quilt where nothing is timed."""
    is_timed = request.config.getoption("benchmark_enable")
    return plan(load_project(KING if is_timed else LAP))


@pytest.fixture(scope="module")
def vast(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Plan:
    """Give the plan of a crosshatch of 500,000 stitches in one field, or of a small one."""
    is_timed = request.config.getoption("benchmark_enable")
    side = VAST_SIDES_MM[1] if is_timed else _SMALL_MM
    return plan(load_project(write_vast(tmp_path_factory.mktemp("vast"), side)))


def _hooped(planned: Plan) -> list[SewnHooping]:
    return [sewn for stage in planned.stages for sewn in stage.hoopings]


def _make(project: Path, out: Path, env: Mapping[str, str]) -> Callable[[], None]:
    """Return what makes a project into a new folder, in a process of its own."""

    def make() -> None:
        shutil.rmtree(out, ignore_errors=True)
        command = [*COMMAND, "make", str(project), "--out", str(out)]
        subprocess.run(command, check=True, capture_output=True, env=env)

    return make


# Whole processes ------------------------------------------------------------------------------


def test_make_over_the_library(
    table: Table, planned: Plan, tmp_path: Path, installed: Mapping[str, str]
) -> None:
    """All that `make` does in one format, over the library writing the same stitches."""
    source, target = tmp_path / "source", tmp_path / "target"
    source.mkdir()
    for one in _hooped(planned):
        (source / f"{one.hooping.number:02}").write_bytes(library_rows(one))

    def write() -> None:
        shutil.rmtree(target, ignore_errors=True)
        target.mkdir()
        command = [sys.executable, str(_ALONE), str(source), str(target)]
        subprocess.run(command, check=True, capture_output=True, env=installed)

    project = KING if table.is_timed else LAP
    table.compare(_make(project, tmp_path / "out", installed), write, goal=1.0, rounds=_ROUNDS)
    made = MadeFolder.at(tmp_path / "out")
    written = [decode(file.read_bytes(), "dst") for file in sorted(target.iterdir())]
    read = sum(len(file.needle_points_units) for file in written)
    assert made.plan["totals"]["stitches"] == read == planned.figures.stitches


def test_make_of_a_throw_over_imports(
    table: Table, tmp_path: Path, installed: Mapping[str, str]
) -> None:
    """All that `make` does in seven formats, over importing what it cannot do without."""
    code = "import numpy, shapely, pyembroidery"

    def start() -> subprocess.CompletedProcess[bytes]:
        return subprocess.run([sys.executable, "-c", code], check=True, env=installed)

    make = _make(THROW, tmp_path / "out", installed)
    table.compare(make, start, goal=2.5, rounds=_ROUNDS)
    made = MadeFolder.at(tmp_path / "out")
    hoopings = [one for stage in made.plan["stages"] for one in stage["hoopings"]]
    assert all(set(one["files"]) == set(FORMATS) for one in hoopings)


def test_help_over_typer(table: Table, installed: Mapping[str, str]) -> None:
    def ask(*command: str) -> bytes:
        return subprocess.run(command, check=True, capture_output=True, env=installed).stdout

    shown, nothing = table.compare(
        lambda: ask(*COMMAND, "--help"),
        lambda: ask(sys.executable, "-c", "import typer"),
        goal=1.2,
        rounds=3 * _ROUNDS,
    )
    assert b"Commands:" in shown
    assert not nothing


def test_growth_of_make(
    benchmark: BenchmarkFixture, table: Table, tmp_path: Path, installed: Mapping[str, str]
) -> None:
    """The exponent of the processor's time over the number of stitches: 1 is in proportion."""
    sides = VAST_SIDES_MM if table.is_timed else (_SMALL_MM, 2 * _SMALL_MM)
    make = [
        _make(write_vast(tmp_path, side), tmp_path / f"{side}", installed) for side in sides
    ]
    seconds = [table.processor_seconds(one) for one in make[:-1]]
    seconds.append(timed(benchmark, lambda: table.processor_seconds(make[-1]), rounds=1))
    made = [MadeFolder.at(tmp_path / f"{side}").plan for side in sides]
    stitches = [one["totals"]["stitches"] for one in made]
    shares = np.divide(stitches, np.square(sides))
    assert np.ptp(shares) < shares.max() / 10  # as many on the same area
    exponent, _ = np.polyfit(np.log(stitches), np.log(seconds), 1)
    steps = np.diff(np.log(seconds)) / np.diff(np.log(stitches))
    told = ", ".join(
        f"{count:,}: {took:.1f} s" for count, took in zip(stitches, seconds, strict=True)
    )
    table.tell(f"exponent {exponent:.2f}, at most {steps.max():.2f} ({told})", 1.05)


def test_peak_memory_of_make(
    benchmark: BenchmarkFixture, table: Table, tmp_path: Path, installed: Mapping[str, str]
) -> None:
    """Bytes a stitch at the peak, over what the same command takes for next to nothing."""

    def peak(side: int) -> int:
        out = tmp_path / f"{side}"
        command = [*COMMAND, "make", str(write_vast(tmp_path, side)), "--out", str(out)]
        return peak_bytes(command, installed)

    start = peak(100)
    side = VAST_SIDES_MM[-1] if table.is_timed else _SMALL_MM
    most = timed(benchmark, lambda: peak(side), rounds=1)
    stitches = MadeFolder.at(tmp_path / f"{side}").plan["totals"]["stitches"]
    assert stitches > side**2 / 20
    assert start < most
    each = (most - start) / stitches
    table.tell(
        f"{each:.0f} bytes a stitch, {each / _BYTES_A_STITCH:.1f} copies of a plan's columns",
        100,
    )


# Needle points --------------------------------------------------------------------------------


def test_sampling_over_segmentize(table: Table, planned: Plan) -> None:
    """All lines of a stage into needle points, arrays in and out either way."""
    lines = [line.points for stage in planned.stages for line in stage.lines]
    stitch_mm = 3.0
    limits = StitchLimits.with_rounding_room(1.0, 7.0)
    every = np.full(len(lines), stitch_mm)

    def sample() -> Sampled:
        return sample_paths(lines, every, limits)

    def segmentize() -> np.ndarray:
        owners = np.repeat(np.arange(len(lines)), [len(line) for line in lines])
        shapes = shapely.linestrings(np.concatenate(lines), indices=owners)
        return shapely.get_coordinates(shapely.segmentize(shapes, stitch_mm))

    sampled, segmented = table.compare(sample, segmentize, goal=2.0, rounds=3 * _ROUNDS)
    # a straight line in equal parts, none longer than asked for, is the same either way
    assert len(sampled.xy) == len(segmented)
    assert np.abs(sampled.xy - segmented).max() < 1e-6
    assert segment_lengths(sampled.xy).min() > 1.0


def test_checking_needle_points_over_making_them(table: Table, vast: Plan) -> None:
    """Crowding and passes of all needle points, over sewing the runs that they come from."""
    (hooped,) = _hooped(vast)

    def check() -> list[Finding]:
        return [*needle_crowding.check(vast), *thread_passes.check(vast)]

    def make() -> Stitches:
        return sew(hooped.runs, vast.project.machine, draws_up=False)

    found, stitches = table.compare(check, make, goal=3.0, rounds=_ROUNDS)
    assert set(found) <= set(vast.findings)
    assert len(stitches) == len(hooped.stitches)


# Stitch files ---------------------------------------------------------------------------------


def _records(planned: Plan, name: str) -> list[Records]:
    return [
        make_records(round_to_units(one.stitches, one.hooping), one.stitches.op, FORMATS[name])
        for one in _hooped(planned)
    ]


@pytest.mark.parametrize("name", ["dst", "exp"])
def test_encoding_over_the_library(table: Table, planned: Plan, name: str) -> None:
    """The same records into whole files.

    The library has its rows ready, and its checking and splitting are switched off.
    """
    records = _records(planned, name)
    patterns = [pattern_of(name, one, title=_LABEL.name) for one in records]
    files, theirs = table.compare(
        lambda: [CODECS[name].encode(one, _LABEL) for one in records],
        lambda: [written(name, one) for one in patterns],
        goal=1 / 30,
        rounds=3,
    )
    if name == "dst":
        theirs = list(map(with_extents_from_the_start, theirs, records))
    assert files == theirs


@pytest.mark.parametrize("name", ["dst", "exp"])
def test_reading_back_over_encoding(table: Table, planned: Plan, name: str) -> None:
    """Reading and comparing, over all from needle points to bytes."""
    format_, hooped = FORMATS[name], _hooped(planned)

    def encode() -> list[bytes]:
        return [CODECS[name].encode(one, _LABEL) for one in _records(planned, name)]

    files, records = encode(), _records(planned, name)
    units = [round_to_units(one.stitches, one.hooping) for one in hooped]

    def verify() -> int:
        read = [decode(data, name) for data in files]
        for one, planned_units, made, said in zip(hooped, units, records, read, strict=True):
            check_read_back(planned_units, one.stitches.op, made, said, format_)
        return sum(len(said.needle_points_units) for said in read)

    count, encoded = table.compare(verify, encode, goal=3.0, rounds=_ROUNDS)
    assert count == planned.figures.stitches
    assert encoded == files
