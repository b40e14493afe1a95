"""How many hoopings there have to be, by weights: a better bound than counting.

Spots get weights so that no field, wherever it lies, holds more than 1 of them; then as many
fields are needed as all spots weigh together. Whatever the weights are, all that they weigh
over the most that a field holds is a bound; so stopping early costs nothing but its sharpness.

Good weights come from a game: one side chooses a spot, the other a field that is to hold it.
Each plays most what would have done best so far, the last round counted twice; the means of
what was played, later rounds counting more, come close to the best there is. Sources:
multiplicative weights, Y. Freund and R. Schapire 1999; the last round twice, A. Rakhlin and
K. Sridharan 2013 (docs/sources.md).
"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import ceil
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.boxes import Boxes
from stitchpath.geometry.tolerance import SOLVER_MISS
from stitchpath.hoopings.places import Kind
from stitchpath.hoopings.programme import find_sides

MOST_ROUNDS = 240
"""Of a game; what is then missing is a few hundredths. A limit on time would make the plan
depend on the machine."""
MOST_SUMS = 1_500_000_000
"""Spots times places of a field, in all rounds of a game: a quarter of a second at the most."""
_SPOT_PACE, _FIELD_PACE = 0.4, 0.8
"""How fast what does well is played more, by trying: faster swings, slower takes longer."""

Weights: TypeAlias = NDArray[np.float64]
"""Of spots, shape (n,)."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Kind:
    """Where fields of a kind may begin, and which spots are within each there; 1 or 0."""

    across: NDArray[np.float64]
    down: NDArray[np.float64]

    @property
    def places(self) -> int:
        return len(self.across) * len(self.down)

    def held(self, weights: Weights) -> NDArray[np.float64]:
        """Return what a field holds at each place, shape (places,)."""
        return ((self.across * weights) @ self.down.T).ravel()

    def holding(self, fields: NDArray[np.float64]) -> Weights:
        """Return by how much of some fields, so much at each place, each spot is held."""
        at = fields.reshape(len(self.across), len(self.down))
        return np.asarray(np.einsum("kn,kn->n", at.T @ self.across, self.down))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Game:
    """Spots, by their number, and the places of fields, kind by kind."""

    spots: int
    kinds: tuple[_Kind, ...]

    @property
    def places(self) -> int:
        return sum(kind.places for kind in self.kinds)

    @property
    def rounds(self) -> int:
        """How many may be played."""
        return min(MOST_ROUNDS, MOST_SUMS // (self.spots * self.places))

    @property
    def even(self) -> Weights:
        """Equal weights, as heavy as may be."""
        most = float(self.held(np.ones(self.spots)).max())
        return np.full(self.spots, 1 / most)

    def held(self, weights: Weights) -> NDArray[np.float64]:
        return np.concatenate([kind.held(weights) for kind in self.kinds])

    def holding(self, fields: NDArray[np.float64]) -> Weights:
        ends = np.cumsum([kind.places for kind in self.kinds])[:-1]
        parts = zip(self.kinds, np.split(fields, ends), strict=True)
        return sum((kind.holding(part) for kind, part in parts), np.zeros(self.spots))


def weighed_bound(
    sets: Iterable[Boxes], kinds: tuple[Kind, ...], *, known: int, wanted: int
) -> int:
    """Return a number of fields below which no cover of some spots can be.

    Sets are weighed one after the other, first those that tell most with equal weights, until
    they tell as much as is wanted.

    Args:
        sets: Of spots that some field has to hold each, shape (n, 4), mm; n >= 1.
        kinds: What fields there are.
        known: What is known to be such a number; what cannot tell more is given up.
        wanted: A greater bound is of no use.
    """
    games = [_game(spots, kinds) for spots in sets]
    for game in sorted(games, key=lambda game: -float(game.even.sum())):
        if wanted <= known:
            break
        known = max(known, told_by(_played(game, known, wanted)))
    return known


def weigh(spots: Boxes, kinds: tuple[Kind, ...], *, wanted: int) -> Weights:
    """Return weights of spots, of which no field holds more than 1.

    Args:
        spots: What some field has to hold each, shape (n, 4), mm; n >= 1.
        kinds: What fields there are.
        wanted: A greater bound is of no use.

    Cost: O(n k) a round, for n spots and k places of a field; both are limited.
    """
    return _played(_game(spots, kinds), 0, wanted)


def told_by(weights: Weights) -> int:
    """Return the number of fields below which no cover can be, by all that spots weigh."""
    return _up(float(weights.sum()))


def _up(size: float) -> int:
    return ceil(size - SOLVER_MISS)


def _game(spots: Boxes, kinds: tuple[Kind, ...]) -> _Game:
    sides = [[find_sides(spots, kind, axis)[1] for axis in range(2)] for kind in kinds]
    kept = [
        _Kind(across=across.astype(float), down=down.astype(float)) for across, down in sides
    ]
    return _Game(spots=len(spots), kinds=tuple(kept))


def _played(game: _Game, known: int, wanted: int) -> Weights:
    """Return the best weights of a game.

    The other side's means tell when to stop: if each spot lies in a share s of its fields at
    the least, all weights together cannot come to more than 1 / s.
    """
    best = game.even
    size, possible = float(best.sum()), wanted
    held, holding = np.zeros(game.places), np.zeros(game.spots)
    all_held, all_holding = held.copy(), holding.copy()
    weights, mean_held, mean_holding = holding.copy(), held.copy(), holding.copy()
    for number in range(1, game.rounds + 1):
        if min(wanted, possible) <= max(known, told_by(best)):
            break
        spot = _shares(-_SPOT_PACE * size * (all_holding + holding))
        field = _shares(_FIELD_PACE * size * (all_held + held))
        held, holding = game.held(spot), game.holding(field)
        all_held += held
        all_holding += holding
        weights += number * spot
        mean_held += number * held
        mean_holding += number * holding
        best = max(best, weights / mean_held.max(), key=np.sum)
        possible = _up(number * (number + 1) / 2 / float(mean_holding.min()))
    return best


def _shares(merits: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return shares of 1 that grow by powers with what is in favour of each."""
    powers = np.exp(merits - merits.max())
    return np.asarray(powers / powers.sum())
