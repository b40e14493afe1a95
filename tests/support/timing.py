"""Benchmarks with types."""

from collections.abc import Callable
from typing import TypeVar, cast

from pytest_benchmark.fixture import BenchmarkFixture

Result = TypeVar("Result")


def timed(
    benchmark: BenchmarkFixture,
    function: Callable[[], Result],
    *,
    rounds: int,
    before: Callable[[], None] = lambda: None,
) -> Result:
    """Time a function so many times, once where nothing is timed; return its last result.

    Args:
        benchmark: The fixture.
        function: What is timed.
        rounds: How often.
        before: Called before each time, untimed.
    """
    result = benchmark.pedantic(function, setup=before, rounds=rounds)  # type: ignore[no-untyped-call]
    return cast("Result", result)
