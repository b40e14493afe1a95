"""What to expect at joins: the closed formula, its worked example, and simulated hoops."""

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.stats import norm

from stitchpath.estimate.join_miss import (
    TWO_SIDED_95,
    expect_misses,
    spreads_of,
    worst_deviation,
)
from stitchpath.geometry.motion import Motion, best_motion
from stitchpath.model.hooping import Hooping, Join, Mark

ERROR_MM = 0.7
TIMES = 3000


def hooping(number: int, *places: tuple[float, float]) -> Hooping:
    marks = tuple(
        Mark(name=name, piece=place, field=(0, 0))
        for name, place in zip("ABCD", places, strict=False)
    )
    return Hooping(number=number, field=(200, 300), centre=(0, 0), marks=marks)


def row() -> list[Hooping]:
    """Return four hoopings side by side, 180 mm apart, marks at far corners."""
    return [
        hooping(number, (180.0 * number, 10.0), (180.0 * number + 180, 290.0))
        for number in range(1, 5)
    ]


def join(place: tuple[float, float], first: int, second: int) -> Join:
    return Join(place=place, hoopings=(first, second), is_on_crossing=False)


def test_worked_example_of_two_marks() -> None:
    """Error 0.7, marks 200 apart, place at 180 from their middle: 1.0 mm (docs/sources.md)."""
    spread = spreads_of([hooping(1, (0, 0), (200, 0))])
    deviation = ERROR_MM * worst_deviation(spread, np.array([[100.0, 180.0]]))
    assert deviation == pytest.approx([np.sqrt(0.7**2 / 2 + 2 * 180**2 * 0.7**2 / 200**2)])
    assert deviation == pytest.approx([1.0], abs=0.05)


def test_in_the_middle_of_the_marks_the_error_is_that_of_a_mean() -> None:
    """The mean of two errors deviates by e / sqrt 2 (elementary)."""
    spread = spreads_of([hooping(1, (0, 0), (200, 100))])
    assert worst_deviation(spread, np.array([[100.0, 50.0]])) == pytest.approx([0.5**0.5])


def test_two_hoopings_alike_miss_by_the_root_of_two() -> None:
    both = [hooping(number, (0, 0), (200, 0)) for number in (1, 2)]
    miss = expect_misses(both, [join((100, 180), 1, 2)], placing_error_mm=ERROR_MM)
    assert miss is not None
    one = np.sqrt(0.7**2 / 2 + 2 * 180**2 * 0.7**2 / 200**2)
    assert miss.by_marks_mm == pytest.approx(1.959964 * np.sqrt(2) * one)
    assert miss.chained_mm == pytest.approx(1.959964 * one)


def test_deviations_of_95_of_100_are_those_of_the_normal_distribution() -> None:
    assert pytest.approx(float(norm.ppf(0.975)), abs=1e-6) == TWO_SIDED_95


def test_marks_further_apart_make_a_better_join() -> None:
    near, far = (
        expect_misses(
            [hooping(n, (0, 0), (apart, 0)) for n in (1, 2)],
            [join((apart / 2, 100), 1, 2)],
            placing_error_mm=ERROR_MM,
        )
        for apart in (100.0, 300.0)
    )
    assert near is not None
    assert far is not None
    assert far.by_marks_mm < near.by_marks_mm


def test_worst_and_typical_join_are_told_and_where() -> None:
    joins = [join((360, y), 1, 2) for y in (150.0, 200.0, 290.0)]
    miss = expect_misses(row(), joins, placing_error_mm=ERROR_MM)
    assert miss is not None
    assert miss.by_marks_at == miss.chained_at == joins[2]
    assert miss.typical_mm < miss.by_marks_mm


def test_no_joins_have_no_miss() -> None:
    assert expect_misses(row(), [], placing_error_mm=ERROR_MM) is None


@pytest.mark.parametrize("place", [(360.0, 150.0), (360.0, 290.0), (540.0, 20.0)])
def test_formula_agrees_with_simulated_hoops_on_marks(place: tuple[float, float]) -> None:
    """Hoops are put on marks that are off by chance, as a maker would: by the best fit."""
    chance = np.random.default_rng(7)
    first, second = row()[0:2]
    missed = _errors(first, place, chance) - _errors(second, place, chance)
    miss = expect_misses(row(), [join(place, 1, 2)], placing_error_mm=ERROR_MM)
    assert miss is not None
    _assert_agrees(missed, miss.by_marks_mm)


@pytest.mark.parametrize("last", [2, 3, 4])
def test_formula_agrees_with_simulated_hoops_in_a_chain(last: int) -> None:
    """Each hoop is put on marks that the one before has sewn, so that motions follow on."""
    place = (300.0, 280.0)
    chance = np.random.default_rng(11)
    missed = np.zeros((TIMES, 2))
    for time in range(TIMES):
        at = np.array([place])
        for one in row()[1:last]:
            at = _placed(one, chance).moved(at)
        missed[time] = at[0] - place
    miss = expect_misses(row(), [join(place, 1, last)], placing_error_mm=ERROR_MM)
    assert miss is not None
    _assert_agrees(missed, miss.chained_mm)


def test_a_chain_of_hoopings_alike_grows_with_the_root_of_their_number() -> None:
    """Errors that add up independently grow with the square root (elementary)."""
    alike = [hooping(number, (0, 0), (200, 200)) for number in range(1, 11)]
    misses = [
        expect_misses(alike, [join((50, 60), 1, last)], placing_error_mm=ERROR_MM)
        for last in (2, 10)
    ]
    one, nine = (miss.chained_mm for miss in misses if miss is not None)
    assert nine == pytest.approx(3 * one)


def _placed(one: Hooping, chance: np.random.Generator) -> Motion:
    marks = np.array([mark.piece for mark in one.marks])
    return best_motion(marks, marks + chance.normal(0, ERROR_MM, marks.shape))


def _errors(
    one: Hooping, place: tuple[float, float], chance: np.random.Generator
) -> NDArray[np.float64]:
    at = np.array([place])
    return np.array([_placed(one, chance).moved(at)[0] - place for _ in range(TIMES)])


def _assert_agrees(missed: NDArray[np.float64], expected_95: float) -> None:
    """Compare within four standard errors of a deviation, e / sqrt(2 n) (elementary)."""
    values, ways = np.linalg.eigh(np.cov(missed.T))
    room = 1 + 4 / np.sqrt(2 * TIMES)
    assert 1 / room < TWO_SIDED_95 * np.sqrt(values[-1]) / expected_95 < room
    assert np.mean(np.abs(missed @ ways[:, -1]) <= expected_95) == pytest.approx(0.95, abs=0.02)
