"""The order of walks that takes the least travel."""

from itertools import permutations, product

import numpy as np
import pytest
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.route.away import find_away
from stitchpath.route.near import find_near, nearest_first
from stitchpath.route.travel import MOST_DISTURBED, shortest_order

START = np.array([50.0, 50.0])


def _travel(ends: NDArray[np.float64], order: list[tuple[int, bool]], start: Points) -> float:
    ways = np.array([ends[walk][::-1] if turned else ends[walk] for walk, turned in order])
    before = np.concatenate([start[None], ways[:-1, 1]])
    return float(np.hypot(*(ways[:, 0] - before).T).sum())


def _nearest(ends: NDArray[np.float64], start: Points) -> list[tuple[int, bool]]:
    """The plain rule, written down anew: of what is left, the nearest end."""
    left, order, needle = set(range(len(ends))), [], start
    while left:
        walk, side = min(
            product(sorted(left), (0, 1)), key=lambda one: np.hypot(*(ends[one] - needle))
        )
        order.append((walk, bool(side)))
        needle = ends[walk, 1 - side]
        left.remove(walk)
    return order


def _nearest_first(ends: NDArray[np.float64]) -> list[int]:
    return nearest_first(ends, START, find_near(ends, START))


def _random(count: int, seed: int) -> NDArray[np.float64]:
    return np.random.default_rng(seed).uniform(0, 100, (count, 2, 2))


@pytest.mark.parametrize("seed", range(6))
def test_a_few_walks_are_ordered_as_the_best_of_all_orders(seed: int) -> None:
    ends = _random(5, seed)
    best = min(
        _travel(ends, list(zip(order, turns, strict=True)), START)
        for order in permutations(range(5))
        for turns in product((False, True), repeat=5)
    )
    assert _travel(ends, shortest_order(ends, start=START), START) == pytest.approx(best)


@pytest.mark.parametrize("count", [1, 2, 3, 4, 12, 40, 90])
def test_every_walk_is_in_the_order_once_and_none_is_worse_than_nearest_first(
    count: int,
) -> None:
    for seed in range(3):
        ends = _random(count, seed)
        order = shortest_order(ends, start=START)
        assert sorted(walk for walk, _ in order) == list(range(count))
        travel = _travel(ends, order, START)
        assert travel <= _travel(ends, _nearest(ends, START), START) + 1e-9


@pytest.mark.parametrize("count", [MOST_DISTURBED + 1, 900])
def test_of_very_many_walks_the_nearest_first_are_improved(count: int) -> None:
    """By more than a tenth: 2-opt alone is known to gain so much (from memory)."""
    ends = _random(count, 0)
    order = shortest_order(ends, start=START)
    assert sorted(walk for walk, _ in order) == list(range(count))
    plain = [(code // 2, bool(code % 2)) for code in _nearest_first(ends)]
    assert _travel(ends, order, START) < 0.9 * _travel(ends, plain, START)


def test_travel_is_the_same_measured_or_from_a_table(monkeypatch: pytest.MonkeyPatch) -> None:
    ends = _random(20, 5)
    table = find_away(ends, START)
    monkeypatch.setattr("stitchpath.route.away.MOST_IN_A_TABLE", 0)
    measured = find_away(ends, START)
    for one, other in zip(table, measured, strict=True):
        rows = [[row[code] for code in range(42)] for row in one]
        assert [[row[code] for code in range(42)] for row in other] == [
            pytest.approx(row) for row in rows
        ]


def test_walks_that_lie_on_one_another_are_all_ordered() -> None:
    ends = np.repeat(_random(2, 1), 5, axis=0)
    order = shortest_order(ends, start=START)
    assert sorted(walk for walk, _ in order) == list(range(10))


def test_the_same_walks_have_the_same_order_again() -> None:
    ends = _random(60, 3)
    assert shortest_order(ends, start=START) == shortest_order(ends, start=START)
