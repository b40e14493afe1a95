"""Benchmarks with types, and of two things beside each other."""

import os
from collections.abc import Callable
from dataclasses import dataclass
from statistics import median
from time import perf_counter, process_time
from typing import TypeVar, cast

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

Result = TypeVar("Result")
Other = TypeVar("Other")


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


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """The table of goals: what a test finds is told at the end of the session.

    Attributes:
        benchmark: The fixture.
        told: Where the lines go: the test's own properties.
    """

    benchmark: BenchmarkFixture
    told: list[tuple[str, object]]

    @property
    def is_timed(self) -> bool:
        """Whether anything is timed in this session."""
        return not self.benchmark.disabled

    def compare(
        self,
        own: Callable[[], Result],
        other: Callable[[], Other],
        *,
        goal: float,
        rounds: int,
    ) -> tuple[Result, Other]:
        """Time two functions in turn, and tell the ratio of the medians; return both results.

        By the clock, and by the processor's time of this process and of those it has begun:
        that is nearly the same however much else the machine does.

        Args:
            own: What is to be fast.
            other: What it is measured against.
            goal: What the ratio is to be at most.
            rounds: How often each is timed; once, untimed, where nothing is.
        """
        taken: list[tuple[float, float]] = []
        others: list[tuple[float, float]] = []
        results: list[Other] = []

        def beside() -> None:
            results[:] = [_clocked(other, others)]

        result = timed(
            self.benchmark, lambda: _clocked(own, taken), rounds=rounds, before=beside
        )
        if self.is_timed:
            by_clock, by_processor = (
                median(row[at] for row in taken) / median(row[at] for row in others)
                for at in (0, 1)
            )
            self.tell(
                f"{by_clock:.3g} by the clock, {by_processor:.3g} by processor time", goal
            )
        return result, results[0]

    def processor_seconds(self, function: Callable[[], object]) -> float:
        """Return the processor's time that a function takes, of what it begins as well."""
        times: list[tuple[float, float]] = []
        _clocked(function, times)
        return times[0][1]

    def tell(self, found: str, goal: float) -> None:
        """Have a line of the table printed at the end, where times are asked for."""
        if self.is_timed:
            self.told.append(("table", f"{found}; goal {goal:.3g}"))


def _clocked(function: Callable[[], Result], times: list[tuple[float, float]]) -> Result:
    clock, processor = perf_counter(), _processor_seconds()
    result = function()
    times.append((perf_counter() - clock, _processor_seconds() - processor))
    return result


def _processor_seconds() -> float:
    return process_time() + sum(os.times()[2:4])


def table_lines(reports: list[pytest.TestReport]) -> list[str]:
    """Return what tests have told, a line each."""
    return [
        f"{report.nodeid.rpartition('::')[2]}: {line}"
        for report in reports
        for name, line in report.user_properties
        if name == "table"
    ]
