"""Repeats are laid in a time that grows with their number, and no faster."""

from math import pi, sqrt
from time import perf_counter

import pytest
import shapely
from pytest_benchmark.fixture import BenchmarkFixture

from stitchpath.geometry.clip import clip_lines
from stitchpath.geometry.points import Points, path_length
from stitchpath.layouts import find_layout
from stitchpath.layouts._layout import Ground, Region
from stitchpath.model.project import Quilting

WIDTH = 20.0
REPEATS = (1_000, 10_000)
PER_REPEAT = {"wineglass": 2, "clamshell": 2, "orange-peel": 1, "terry-twist": 1}
"""Motifs to a square of the spacing: circles and shells stand twice as close."""

MOST = 12.0
"""How many times longer ten times as many repeats may take."""


def ground_of(name: str, repeats: int) -> Ground:
    """Return a round ground that takes so many repeats, so that all its edge is cut."""
    area = repeats / PER_REPEAT[name] * WIDTH**2
    region: Region = shapely.Point(0, 0).buffer(sqrt(area / pi), quad_segs=16)
    return Ground(region=region, frame=region.bounds)


def lay(name: str, ground: Ground) -> list[Points]:
    """Return a layout's strands."""
    strands = find_layout(name).make(ground, Quilting(layout=name, spacing=WIDTH))
    return [strand.points for strand in strands]


@pytest.mark.parametrize("repeats", REPEATS)
@pytest.mark.parametrize("name", PER_REPEAT)
def test_laying(benchmark: BenchmarkFixture, name: str, repeats: int) -> None:
    ground = ground_of(name, repeats)
    lines = benchmark(lay, name, ground)
    assert sum(len(line) for line in lines) > 20 * repeats


@pytest.mark.parametrize("repeats", REPEATS)
def test_cutting_to_a_round_area(benchmark: BenchmarkFixture, repeats: int) -> None:
    ground = ground_of("wineglass", repeats)
    lines = lay("wineglass", ground)
    parts = benchmark(clip_lines, lines, ground.region)
    length = sum(path_length(part) for _, part in parts)
    assert length == pytest.approx(repeats * pi * WIDTH, rel=0.1)


@pytest.mark.parametrize("name", ["wineglass", "clamshell"])
def test_ten_times_as_many_repeats_take_at_most_twelve_times_as_long(name: str) -> None:
    few, many = (ground_of(name, repeats) for repeats in REPEATS)
    ratios = [_seconds(name, many, times=1) / _seconds(name, few, times=10) for _ in range(9)]
    assert 10 * min(ratios) <= MOST


def _seconds(name: str, ground: Ground, *, times: int) -> float:
    """Return how long it takes to lay a layout some times, all of it kept.

    So both sizes ask the system for as much memory, whose cost differs from run to run more
    than that of laying.
    """
    start = perf_counter()
    kept = [lay(name, ground) for _ in range(times)]
    seconds = perf_counter() - start
    assert len(kept) == times
    return seconds
