"""How many hoopings there have to be, by weights: a better bound, and slower than counting.

Spots get weights so that no field, wherever it lies, holds more than 1 of them; then as many
fields are needed as all spots weigh together. The heaviest such weights are a linear programme
with a row for each place of a field. Rows are added as they are broken. What is asked each time
is half-way between the best weights so far and the programme's, which needs fewer rounds.
Whatever the weights are, all that they weigh over the most that a field holds is a bound; so
stopping early costs nothing but its sharpness. Source: row generation with separation from a
point inside, W. Ben-Ameur and J. Neto 2007, from memory.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.boxes import Boxes
from stitchpath.geometry.tolerance import SOLVER_MISS
from stitchpath.hoopings.places import Kind
from stitchpath.hoopings.programme import find_sides

MOST_ROUNDS = 14
"""How often rows are added. A limit on time would make the plan depend on the machine."""
_FULL_SHARE = 0.5
"""Fields that hold so much of what the fullest does are rows from the start."""

Weights: TypeAlias = NDArray[np.float64]
"""Of spots, shape (n,)."""
_Row: TypeAlias = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Places:
    """Where fields of a kind may begin, and which spots are within each there; 1 or 0."""

    across: NDArray[np.float64]
    down: NDArray[np.float64]


def weigh(spots: Boxes, kinds: tuple[Kind, ...], *, wanted: int, enough: int) -> Weights:
    """Return weights of spots, of which no field holds more than 1.

    Args:
        spots: What some field has to hold each, shape (n, 4), mm; n >= 1.
        kinds: What fields there are.
        wanted: It is given up when the bound cannot come to so much.
        enough: A greater bound is of no use.

    Cost: some rounds of a linear programme of n weights, and of O(n^3) in whole arrays.
    """
    places = [_places(spots, kind) for kind in kinds]
    even = np.ones(len(spots))
    most = _most_held(places, even)
    best = even / most
    rows = _fuller(places, even, _FULL_SHARE * most)
    for _ in range(MOST_ROUNDS):
        heaviest = _heaviest(rows, len(spots))
        possible = told_by(heaviest)
        if possible < wanted or told_by(best) >= min(enough, possible):
            break
        for weights in ((best + heaviest) / 2, heaviest):
            best = max(best, weights / _most_held(places, weights), key=np.sum)
            rows |= _fuller(places, weights, 1.0 + SOLVER_MISS)
    return best


def told_by(weights: Weights) -> int:
    """Return the number of fields below which no cover can be, by all that spots weigh."""
    return ceil(float(weights.sum()) - SOLVER_MISS)


def _places(spots: Boxes, kind: Kind) -> _Places:
    across, down = (find_sides(spots, kind, axis)[1].astype(np.float64) for axis in range(2))
    return _Places(across=across, down=down)


def _most_held(places: list[_Places], weights: Weights) -> float:
    return max(float(held.max()) for _, held in _held(places, weights))


def _held(
    places: list[_Places], weights: Weights
) -> Iterator[tuple[_Places, NDArray[np.float64]]]:
    """Yield for each kind what a field holds at each place from left to right, and down."""
    for each in places:
        yield each, (each.across * weights) @ each.down.T


def _fuller(places: list[_Places], weights: Weights, least: float) -> dict[bytes, _Row]:
    """Return what the fullest fields hold, for every left and every top, above a least."""
    rows: dict[bytes, _Row] = {}
    for each, held in _held(places, weights):
        pairs = [
            *enumerate(held.argmax(axis=1).tolist()),
            *((left, top) for top, left in enumerate(held.argmax(axis=0).tolist())),
        ]
        for left, top in pairs:
            if held[left, top] > least:
                row = (each.across[left] * each.down[top]).astype(np.bool_)
                rows[row.tobytes()] = row
    return rows


def _heaviest(rows: dict[bytes, _Row], count: int) -> Weights:
    """Return the heaviest weights of which no row holds more than 1."""
    from scipy.optimize import linprog  # noqa: PLC0415 - slow to import

    result = linprog(
        -np.ones(count),
        A_ub=np.array(list(rows.values()), dtype=np.float64),
        b_ub=np.ones(len(rows)),
        bounds=(0.0, 1.0),
        method="highs-ipm",
    )
    return np.asarray(result.x, dtype=np.float64)
