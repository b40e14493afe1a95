"""Squares between lines whose answer is plain (geometry)."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.geometry.empty_square import empty_square_side
from stitchpath.geometry.points import Points


def _box(half: float, degrees: float) -> Points:
    turn = math.radians(degrees)
    turned = np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
    corners = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1], [-1, -1]]) * half
    return np.asarray(corners @ turned)


@pytest.mark.parametrize("degrees", [0.0, 30.0, 45.0, 71.0])
def test_in_a_square_it_is_that_square(degrees: float) -> None:
    assert empty_square_side([_box(20, degrees) + 7], (7.0, 7.0)) == pytest.approx(40)


def test_between_parallel_lines_it_is_their_distance() -> None:
    walls = [np.array([[-90.0, y], [90.0, y]]) for y in (-6.0, 6.0)]
    assert empty_square_side(walls, (0.0, 0.0)) == pytest.approx(12)


def test_in_a_circle_its_corners_touch() -> None:
    angles = np.linspace(0, 2 * np.pi, 400)
    ring = np.column_stack([np.cos(angles), np.sin(angles)]) * 10
    assert empty_square_side([ring], (0.0, 0.0)) == pytest.approx(10 * math.sqrt(2), rel=1e-3)


@given(seed=st.integers(0, 10_000))
def test_it_is_empty_and_between_the_two_bounds_of_its_circle(seed: int) -> None:
    """Between the square inside the circle, r times the root of two, and the one round it."""
    lines = [np.random.default_rng(seed + k).uniform(-30, 30, (3, 2)) for k in range(4)]
    dense = np.concatenate([line[0] + np.linspace(0, 1, 500)[:, None] * (b - line[0])
                            for line in lines for b in line[1:2]])  # fmt: skip
    radius = float(np.hypot(*dense.T).min())
    side = empty_square_side([line[:2] for line in lines], (0.0, 0.0))
    assert side >= 2 * radius / math.sqrt(2) - 0.2
    assert side <= 2 * radius + 0.2
