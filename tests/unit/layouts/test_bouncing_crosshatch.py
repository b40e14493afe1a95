"""The bouncing crosshatch."""

from collections import Counter
from itertools import pairwise
from math import gcd, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.geometry.points import Points, path_length
from stitchpath.layouts.bouncing_crosshatch import LAYOUT, bouncing_loops, choose_counts
from stitchpath.model.quilt import Quilting
from tests.support.straight_layouts import clipped, rectangle_ground

ALL_COUNTS = [(m, n) for m in range(1, 13) for n in range(1, 13)]


def loops_by_stepping(m: int, n: int) -> int:
    """Count closed paths by walking from side middle to side middle, one half cell a step."""
    unseen = {(x, y) for x in range(2 * m + 1) for y in range(2 * n + 1) if (x + y) % 2}
    # each middle is passed twice, but for those on the edge; a path visits states, not places
    states = {(x, y, dx, dy) for x, y in unseen for dx in (-1, 1) for dy in (-1, 1)}
    states = {s for s in states if 0 <= s[0] + s[2] <= 2 * m and 0 <= s[1] + s[3] <= 2 * n}
    paths = 0
    while states:
        x, y, dx, dy = start = next(iter(states))
        while True:
            states.discard((x, y, dx, dy))
            x, y = x + dx, y + dy
            dx = -dx if not 0 <= x + dx <= 2 * m else dx
            dy = -dy if not 0 <= y + dy <= 2 * n else dy
            if (x, y, dx, dy) == start:
                break
        paths += 1
    return paths // 2  # each loop is walked in both directions


def half_steps(loop: Points) -> Counter[tuple[tuple[int, int], tuple[int, int]]]:
    """Count the half-cell diagonals that a loop covers, whichever way it goes."""
    steps: Counter[tuple[tuple[int, int], tuple[int, int]]] = Counter()
    for one, other in pairwise((2 * loop).round().astype(int)):
        way = np.sign(other - one)
        for step in range(abs(other[0] - one[0])):
            here, there = one + step * way, one + (step + 1) * way
            low, high = sorted((tuple(here.tolist()), tuple(there.tolist())))
            steps[low, high] += 1
    return steps


@pytest.mark.parametrize(("m", "n"), ALL_COUNTS)
def test_an_m_by_n_grid_holds_gcd_loops(m: int, n: int) -> None:
    # Lj. Radovic, "Mirror curves" (paperzz.com/doc/8646037): the number of components is
    # GCD(a, b); counted here by stepping as well
    assert len(bouncing_loops(m, n)) == gcd(m, n) == loops_by_stepping(m, n)


@pytest.mark.parametrize(("m", "n"), ALL_COUNTS)
def test_the_loops_cover_every_half_cell_diagonal_once(m: int, n: int) -> None:
    covered = sum((half_steps(loop) for loop in bouncing_loops(m, n)), Counter())
    assert len(covered) == 4 * m * n
    assert set(covered.values()) == {1}


@pytest.mark.parametrize(("m", "n"), [(1, 1), (3, 2), (6, 4), (12, 12), (7, 11)])
def test_a_loop_closes_and_turns_only_on_the_edges(m: int, n: int) -> None:
    for loop in bouncing_loops(m, n):
        assert (loop[0] == loop[-1]).all()
        assert len(loop) == 2 * (m + n) // gcd(m, n) + 1
        x, y = loop.T
        on_edge = (x == 0) | (x == m) | (y == 0) | (y == n)
        assert on_edge.all()
        assert (
            np.abs(np.diff(loop, axis=0)[:, 0]) == np.abs(np.diff(loop, axis=0)[:, 1])
        ).all()
        assert (np.diff(loop, axis=0) != 0).all()


def test_edges_are_met_at_the_middles_of_cells() -> None:
    (loop,) = bouncing_loops(3, 2)
    on_top = sorted({float(x) for x, y in loop if y == 0})
    on_left = sorted({float(y) for x, y in loop if x == 0})
    assert on_top == [0.5, 1.5, 2.5]
    assert on_left == [0.5, 1.5]


@given(st.floats(5, 10_000), st.floats(5, 10_000), st.floats(1, 2000))
def test_counts_have_no_common_factor(width: float, height: float, spacing: float) -> None:
    m, n = choose_counts(width, height, spacing)
    assert gcd(m, n) == 1


@given(st.floats(500, 3000), st.floats(500, 3000), st.floats(20, 60))
def test_lines_are_nearly_spacing_apart_and_cells_nearly_square(
    width: float, height: float, spacing: float
) -> None:
    m, n = choose_counts(width, height, spacing)
    across, down = width / m, height / n
    assert across / down == pytest.approx(1, abs=0.25)
    # two lines of one direction, through the middles of neighbouring sides
    apart = across * down / np.hypot(across, down)
    assert apart == pytest.approx(spacing, rel=0.25)


def test_where_counts_without_a_common_factor_fit_exactly_they_are_taken() -> None:
    assert choose_counts(7 * 50 * sqrt(2), 10 * 50 * sqrt(2), 50) == (7, 10)


def test_a_square_gets_counts_that_differ_by_one() -> None:
    m, n = choose_counts(500, 500, 40)
    assert abs(m - n) == 1


def test_it_is_one_closed_line_inside_a_rectangle_that_touches_all_its_edges() -> None:
    ground = rectangle_ground(437.3, 611.1)
    strands = LAYOUT.make(ground, Quilting(spacing=33))
    (line,) = clipped(strands, ground)
    assert (line[0] == line[-1]).all()
    assert line.min(axis=0).tolist() == [0, 0]
    assert line.max(axis=0).tolist() == [437.3, 611.1]
    m, n = choose_counts(437.3, 611.1, 33)
    assert path_length(line) == pytest.approx(2 * m * n * np.hypot(437.3 / m, 611.1 / n))


def test_a_spacing_larger_than_the_area_leaves_a_loop_of_few_turns() -> None:
    (strand,) = LAYOUT.make(rectangle_ground(30, 20), Quilting(spacing=800))
    assert strand.points.tolist() == [[15, 0], [30, 10], [15, 20], [0, 10], [15, 0]]


def test_it_always_fills_its_area() -> None:
    assert LAYOUT.repeat is not None
    assert LAYOUT.repeat(Quilting()) == (0, 0)
