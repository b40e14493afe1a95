"""What is near after each walk, and the order of plain nearest neighbour."""

from itertools import product

import numpy as np
import pytest
from hypothesis import given
from numpy.typing import NDArray
from scipy.spatial import cKDTree

from stitchpath.route.near import find_near, nearest_first
from tests.strategies import walk_ends

START = np.array([50.0, 50.0])


def _away(ends: NDArray[np.float64], code: int) -> NDArray[np.float64]:
    """Return how far each code begins from where one ends, the start after all of them, mm."""
    enters = ends.reshape(-1, 2)
    place = START if code == len(enters) else enters[code ^ 1]
    away: NDArray[np.float64] = np.hypot(*(enters - place).T)
    return away


@given(ends=walk_ends())
def test_near_are_the_nearest_by_plain_sorting(ends: NDArray[np.float64]) -> None:
    near = find_near(ends, START)
    assert len(near) == 2 * len(ends) + 1
    for code, found in enumerate(near):
        away = _away(ends, code)
        others = [other for other in np.argsort(away, kind="stable") if other // 2 != code // 2]
        nearest = away[others][: len(found)]
        assert min(8, len(others)) == len(found) == len(set(found))
        assert away[found] == pytest.approx(nearest, abs=1e-9)
        assert code // 2 not in {other // 2 for other in found}


def test_of_codes_as_near_the_smallest_come_first() -> None:
    spots = np.array([[0.0, 0], [10, 0], [0, 10], [10, 10], [5, 5]])
    near = find_near(np.stack([spots, spots], axis=1), START)
    assert near[8] == [0, 1, 2, 3, 4, 5, 6, 7]


@pytest.mark.parametrize("count", [300, 3000])
def test_of_many_the_nearest_are_as_near_as_a_tree_finds(count: int) -> None:
    """Scattered, along an edge, in two heaps far apart."""
    chance = np.random.default_rng(count)
    scattered = chance.uniform(0, 2000, (count, 2, 2))
    edge = scattered * (1, 0)
    heaps = chance.normal(0, 5, (count, 2, 2)) + chance.choice([0, 3000], (count, 1, 1))
    for ends in (scattered, edge, heaps):
        enters = ends.reshape(-1, 2)
        from_ends = np.vstack([enters[np.arange(len(enters)) ^ 1], START])
        away, found = cKDTree(enters).query(from_ends, k=10)
        for code, row in enumerate(find_near(ends, START)):
            others = found[code] // 2 != code // 2
            own = np.hypot(*(enters[row] - from_ends[code]).T)
            assert np.abs(own - away[code][others][:8]).max() < 1e-9


def _plain(ends: NDArray[np.float64]) -> list[int]:
    """The plain rule, written down anew: of what is left, the nearest end."""
    left, order, needle = set(range(len(ends))), [], START
    while left:
        walk, side = min(
            product(sorted(left), (0, 1)), key=lambda one: ((ends[one] - needle) ** 2).sum()
        )
        order.append(2 * walk + side)
        needle = ends[walk, 1 - side]
        left.remove(walk)
    return order


@given(ends=walk_ends())
def test_nearest_first_is_the_plain_rule(ends: NDArray[np.float64]) -> None:
    assert nearest_first(ends, START, find_near(ends, START)) == _plain(ends)


def test_of_ends_as_near_as_each_other_the_first_is_taken() -> None:
    spokes = [(np.cos(turn), np.sin(turn)) for turn in np.arange(4) * np.pi / 2]
    ends = np.round(START + np.array([[spoke, 2 * np.array(spoke)] for spoke in spokes]), 9)
    assert nearest_first(ends, START, find_near(ends, START))[0] == 0
