"""How long it takes to place the hoop on a king-size quilt, by the number of its lines.

Twice the lines should take no more than twice the time, and a little for what does not grow.
"""

from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from stitchpath.cli.files import load_project
from stitchpath.hoopings import place_hoopings
from stitchpath.layouts import lay_lines
from stitchpath.pieces import make_tasks
from tests.support.timing import timed

pytestmark = pytest.mark.slow

_KING = Path(__file__).parent / "king.toml"
_FEWEST = 80


@pytest.mark.parametrize("share", [1, 2, 4])
def test_placing(benchmark: BenchmarkFixture, share: int) -> None:
    """Every line, every second and every fourth, in as many hoopings."""
    project = load_project(_KING)
    (task,) = make_tasks(project)
    lines = lay_lines(task, unit="in").lines
    edge, quilting = lines[-1:], lines[:-1:share]
    placed = timed(
        benchmark, lambda: place_hoopings(task, (*quilting, *edge), project), rounds=5
    )
    assert len(placed.hoopings) == _FEWEST
    assert not placed.findings
    assert len(placed.joins) >= 3000 / share
    on_crossings = sum(join.is_on_crossing for join in placed.joins)
    assert on_crossings >= len(placed.joins) / (4 * share)
