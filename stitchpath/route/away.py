"""Travel between the ends of walks, looked up in a table or measured when asked for.

Walks are codes, 2 * walk + turned. Two codes more stand for the needle's place at the start and
for the end, which may be anywhere. A code with its last bit changed is the same walk the other
way round, and the end for the start.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import dist
from typing import Protocol, TypeAlias

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points

MOST_IN_A_TABLE = 400
"""Of more walks travel is measured when asked for: a table takes the square of their number."""


class Row(Protocol):
    """The travel from one code to each, mm."""

    def __getitem__(self, code: int, /) -> float:
        """Return the travel to a code."""
        ...


Away: TypeAlias = Sequence[Row]
"""The travel from each code to each, mm."""

_Spot: TypeAlias = tuple[float, ...] | None
"""A place; None is anywhere, and takes no travel."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Measured:
    """A row that is measured when asked for."""

    place: _Spot
    places: list[_Spot]

    def __getitem__(self, code: int, /) -> float:
        to = self.places[code]
        return 0.0 if self.place is None or to is None else dist(self.place, to)


def find_away(ends: NDArray[np.float64], start: Points) -> tuple[Away, Away]:
    """Return the travel between walks in an order, seen from its start and from its end.

    Args:
        ends: Where each walk begins and ends, shape (n, 2, 2), mm.
        start: Where the needle is, shape (2,).
    """
    if len(ends) <= MOST_IN_A_TABLE:
        return _table(ends, start)
    enters: list[_Spot] = [tuple(end) for end in ends.reshape(-1, 2).tolist()]
    leaves = [enters[code ^ 1] for code in range(len(enters))]
    needle = tuple(start.tolist())
    forwards, backwards = [*enters, None, None], [*enters, None, needle]
    return (
        [_Measured(place=place, places=forwards) for place in (*leaves, needle, None)],
        [_Measured(place=place, places=backwards) for place in (*leaves, None, None)],
    )


def _table(
    ends: NDArray[np.float64], start: Points
) -> tuple[list[list[float]], list[list[float]]]:
    enters = ends.reshape(-1, 2)
    leaves = ends[:, ::-1].reshape(-1, 2)
    count = len(enters)
    way = np.zeros((count + 2, count + 2))
    way[:count, :count] = np.hypot(*(leaves[:, None] - enters[None]).transpose(2, 0, 1))
    way[count, :count] = np.hypot(*(enters - start).T)
    turned = np.arange(count + 2) ^ 1
    return way.tolist(), way.T[turned][:, turned].tolist()
