"""The quilt that most benchmarks take, planned once for all of them; and the table of goals."""

import os
from collections.abc import Mapping

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from stitchpath.model.plan import Plan
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.pipeline import plan
from tests.support.timing import Table, table_lines

SIDE_MM = 108 * 25.4


@pytest.fixture(scope="session")
def king() -> Plan:
    """Give a king-size quilt, 108 x 108 in, half-inch crosshatch at 3 mm."""
    layout = Quilting(layout="crosshatch", spacing=12.7, stitch_length=3.0)
    return plan(Project(quilt=Quilt(width=SIDE_MM, length=SIDE_MM, quilting=(layout,))))


@pytest.fixture(scope="session")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, str]:
    """Give an environment in which modules are compiled once, as an installation has them.

    The first time counts too: the median does not see it.
    """
    kept = {
        name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"
    }
    return kept | {"PYTHONPYCACHEPREFIX": str(tmp_path_factory.mktemp("compiled"))}


@pytest.fixture
def table(benchmark: BenchmarkFixture, request: pytest.FixtureRequest) -> Table:
    """Give the table of goals, to compare things in."""
    return Table(benchmark=benchmark, told=request.node.user_properties)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print the table of goals."""
    lines = table_lines(terminalreporter.stats.get("passed", []))
    if lines:
        terminalreporter.section("table of goals")
        for line in lines:
            terminalreporter.write_line(line)
