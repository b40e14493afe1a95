"""Cloth layouts against an exact solver: at most a tenth longer than can be.

The solver is HiGHS (https://highs.dev) through scipy; the model is the usual one of strip
packing: for each pair of pieces one lies beside or below the other (big-M; common practice).
"""

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.optimize import Bounds, LinearConstraint, milp

from stitchpath.estimate.cloth_layout import lay_out
from stitchpath.model.estimate import Rectangle

WIDTH = 1000.0


def _pieces(seed: int) -> list[Rectangle]:
    """Return three to five pieces, some alike, in a print that may be turned or not."""
    chance = np.random.default_rng(seed)
    count = int(chance.integers(3, 6)) if seed % 4 else 6
    sides = chance.integers(15, 95, (count, 2)) * 10.0
    if seed % 3 == 0:
        sides[1] = sides[0]
    may_turn = bool(seed % 2) and count < 6
    return [
        Rectangle(what=f"piece {n}", width=float(w), length=float(h), may_turn=may_turn)
        for n, (w, h) in enumerate(sides.tolist())
    ]


def _shortest_mm(pieces: list[Rectangle]) -> float:
    """Return the least length of cloth that holds all pieces; solved in widths of the cloth."""
    scaled = [
        replace(piece, width=piece.width / WIDTH, length=piece.length / WIDTH)
        for piece in pieces
    ]
    return WIDTH * _shortest(scaled)


def _shortest(pieces: list[Rectangle]) -> float:
    """Return the same on cloth of width 1.

    Columns: the length; x, y and turn of each piece; four choices for each pair.
    """
    count, pairs = len(pieces), list(combinations(range(len(pieces)), 2))
    columns = 1 + 3 * count + 4 * len(pairs)
    rows: list[NDArray[np.float64]] = []
    least: list[float] = []
    tall = sum(max(piece.width, piece.length) for piece in pieces)

    def at(piece: int, what: int) -> int:
        return 1 + 3 * piece + what

    def add(terms: dict[int, float], low: float) -> None:
        row = np.zeros(columns)
        for column, factor in terms.items():
            row[column] += factor
        rows.append(row)
        least.append(low)

    for number, piece in enumerate(pieces):
        wider = piece.length - piece.width  # what a turn adds across, and takes off along
        add({at(number, 0): -1, at(number, 2): -wider}, piece.width - 1)
        add({0: 1, at(number, 1): -1, at(number, 2): wider}, piece.length)
    for place, (one, other) in enumerate(pairs):
        choices = [1 + 3 * count + 4 * place + side for side in range(4)]
        for (a, b), axis, choice in zip(
            [(one, other), (other, one)] * 2, (0, 0, 1, 1), choices, strict=True
        ):
            span = 1.0 if axis == 0 else tall
            side = pieces[a].width if axis == 0 else pieces[a].length
            grown = (pieces[a].length - pieces[a].width) * (1 if axis == 0 else -1)
            terms = {at(b, axis): 1.0, at(a, axis): -1.0, at(a, 2): -grown, choice: -span}
            add(terms, side - span)
        add(dict.fromkeys(choices, 1.0), 1)
    high = np.full(columns, tall)
    whole = np.zeros(columns)
    for number, piece in enumerate(pieces):
        high[at(number, 0)] = 1
        high[at(number, 2)] = float(piece.may_turn)
        whole[at(number, 2)] = 1
    high[1 + 3 * count :], whole[1 + 3 * count :] = 1, 1
    cost = np.zeros(columns)
    cost[0] = 1
    solved = milp(
        cost,
        constraints=LinearConstraint(np.array(rows), lb=np.array(least)),
        bounds=Bounds(np.zeros(columns), high),
        integrality=whole,
    )
    assert solved.success, solved.message
    return float(solved.fun)


def test_solver_finds_what_is_known() -> None:
    """Two halves side by side; a square that has to go below (geometry)."""
    half = Rectangle(what="half", width=500, length=800, may_turn=False)
    square = Rectangle(what="square", width=600, length=600)
    assert _shortest_mm([half, half]) == pytest.approx(800)
    assert _shortest_mm([half, half, square]) == pytest.approx(1400)


@pytest.mark.parametrize("seed", range(20, 40))
def test_no_layout_is_a_tenth_longer_than_the_shortest(seed: int) -> None:
    pieces = _pieces(seed)
    laid, shortest = lay_out(pieces, WIDTH), _shortest_mm(pieces)
    assert shortest - 1e-3 <= laid.length <= 1.1 * shortest
