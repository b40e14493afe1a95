"""How long ordering takes beside sewing, and how far travel is from the best that is known.

Run once as tests by default; timed by `pytest tests/bench --benchmark-enable --benchmark-only`.
Ratios of times are printed, never asserted: shared machines are too uneven.
"""

from typing import Final

import numpy as np
import pytest
from numpy.typing import NDArray
from pytest_benchmark.fixture import BenchmarkFixture

from stitchpath.layouts import lay_lines
from stitchpath.model.line import Line
from stitchpath.model.machine import Machine
from stitchpath.model.piece import StageTask
from stitchpath.model.project import Project, RouteRules
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.route import Route
from stitchpath.model.stitches import Stitches
from stitchpath.pieces import make_tasks
from stitchpath.route import find_costs, order_runs
from stitchpath.route.graph import line_graph
from stitchpath.route.islands import count_islands
from stitchpath.route.legs import whole_leg
from stitchpath.route.travel import shortest_order
from stitchpath.sewing import sew
from tests.support.timing import timed

pytestmark = pytest.mark.slow

KING_MM: Final = (2540.0, 2336.8)
HALF_INCH: Final = 12.7
CASES: Final = 50
_ROUNDS: Final = 5
_NEEDLE: Final = np.array([500.0, 500.0])


def _king(spacing_mm: float) -> tuple[Project, StageTask, tuple[Line, ...]]:
    """Return a king-size crosshatch in one large field."""
    width, length = KING_MM
    quilting = Quilting(layout="crosshatch", spacing=spacing_mm)
    project = Project(
        quilt=Quilt(width=width, length=length, quilting=(quilting,)),
        machine=Machine(field=(3000, 3000)),
        route=RouteRules(travel="edge"),
    )
    (task,) = make_tasks(project)
    return project, task, lay_lines(task).lines


def _ordered(spacing_mm: float) -> Route:
    project, task, lines = _king(spacing_mm)
    costs = find_costs(project.route, project.machine)
    return order_runs(lines, costs, middle=task.piece.centre)


@pytest.mark.parametrize("spacing_mm", [2 * HALF_INCH, HALF_INCH])
def test_ordering_without_counting_islands(
    benchmark: BenchmarkFixture, monkeypatch: pytest.MonkeyPatch, spacing_mm: float
) -> None:
    monkeypatch.setattr("stitchpath.route.order.count_islands", lambda *_: 0)
    project, task, lines = _king(spacing_mm)
    costs = find_costs(project.route, project.machine)
    route = timed(
        benchmark, lambda: order_runs(lines, costs, middle=task.piece.centre), rounds=_ROUNDS
    )
    assert route.figures.runs < len(lines) // 2 < route.figures.least_runs


@pytest.mark.parametrize("spacing_mm", [2 * HALF_INCH, HALF_INCH])
def test_counting_islands(benchmark: BenchmarkFixture, spacing_mm: float) -> None:
    """Of lines in any order, where the faces between them are known."""
    _, _, lines = _king(spacing_mm)
    graph = line_graph(lines)
    order = np.random.default_rng(5).permutation(len(lines)).tolist()
    sewn = [[whole_leg(graph, index)] for index in order]
    faces = int(graph.sides.max())
    islands = timed(benchmark, lambda: count_islands(graph, sewn), rounds=_ROUNDS)
    assert 0 < islands < len(lines) < faces


@pytest.mark.parametrize("spacing_mm", [2 * HALF_INCH, HALF_INCH])
def test_sewing_the_same(benchmark: BenchmarkFixture, spacing_mm: float) -> None:
    runs = _ordered(spacing_mm).runs

    def sewn() -> Stitches:
        return sew(runs, Machine(), draws_up=False)

    assert len(timed(benchmark, sewn, rounds=_ROUNDS)) > 100_000


# Travel ---------------------------------------------------------------------------------------


def _case(number: int) -> NDArray[np.float64]:
    """Return 30 to 200 walks: short ones anywhere, long ones, or slanting ones on a grid."""
    chance = np.random.default_rng(1000 + number)
    count = int(np.linspace(30, 200, CASES)[number])
    start = chance.uniform(0, 1000, (count, 2))
    if number % 3 == 2:
        turn = chance.integers(0, 4, count) * np.pi / 4
        start = np.round(start / 50) * 50
        return np.stack([start, start + 100 * np.column_stack([np.cos(turn), np.sin(turn)])], 1)
    return np.stack([start, start + chance.normal(0, (30, 250)[number % 3], (count, 2))], 1)


def _travel(ends: NDArray[np.float64], order: list[tuple[int, bool]]) -> float:
    ways = np.array([ends[walk][::-1] if turned else ends[walk] for walk, turned in order])
    before = np.concatenate([_NEEDLE[None], ways[:-1, 1]])
    return float(np.hypot(*(ways[:, 0] - before).T).sum())


def _solved(ends: NDArray[np.float64]) -> list[tuple[int, bool]]:
    """Return the order that Lin-Kernighan-Helsgaun finds.

    A tour over both ends of every walk, the needle's place, and a place that costs nothing to
    come from or go to. Going from one end of a walk to the other is free, anything else costs
    so much more that a tour uses every walk.
    """
    elkai = pytest.importorskip("elkai")
    count, much = 2 * len(ends), 20_000
    places = np.vstack([ends.reshape(-1, 2), _NEEDLE])
    cost = np.full((count + 2, count + 2), much, dtype=np.int64)
    away = np.hypot(*(places[:, None] - places[None]).transpose(2, 0, 1))
    cost[: count + 1, : count + 1] += np.rint(10 * away).astype(np.int64)
    twins = np.arange(count + 2) ^ 1
    cost[np.arange(count + 2), twins] = 0
    np.fill_diagonal(cost, 0)
    tour = elkai.DistanceMatrix(cost.tolist()).solve_tsp(runs=5)[:-1]
    begin = tour.index(count)
    tour = tour[begin:] + tour[:begin]
    if tour[1] == count + 1:
        tour = tour[:1] + tour[:0:-1]
    assert tour[-1] == count + 1
    return [(place // 2, place % 2 == 1) for place in tour[1:-1:2]]


@pytest.mark.parametrize("number", range(CASES))
def test_travel_is_at_most_a_twentieth_over_a_strong_solver(number: int) -> None:
    ends = _case(number)
    best = _travel(ends, _solved(ends))
    assert _travel(ends, shortest_order(ends, start=_NEEDLE)) <= 1.05 * best


@pytest.mark.parametrize("number", [0, 25, 49])
def test_finding_travel(benchmark: BenchmarkFixture, number: int) -> None:
    ends = _case(number)
    order = timed(benchmark, lambda: shortest_order(ends, start=_NEEDLE), rounds=_ROUNDS)
    assert sorted(walk for walk, _ in order) == list(range(len(ends)))
