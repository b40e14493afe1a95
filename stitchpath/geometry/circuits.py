"""Circuits: walking along stretches with one side always to the left.

Every stretch has two sides, and the next stretch at its end is the next one round the node, so
each side is on one circuit. See `faces`.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.geometry.stretches import Stretches

_Indices = NDArray[np.intp]


@dataclass(frozen=True, kw_only=True, eq=False)
class Circuits:
    """The circuits of some stretches.

    Attributes:
        stretches: The stretches.
        following: For each side, the one that comes after it.
        beside: The circuits on the two sides of each stretch, shape (stretches, 2).
        area: The area that each is walked round, negative from outside, mm^2.
        part: The connected part that each belongs to.
    """

    stretches: Stretches
    following: _Indices
    beside: _Indices
    area: NDArray[np.float64]
    part: _Indices

    @classmethod
    def of(cls, stretches: Stretches, parts: _Indices) -> "Circuits":
        """Return the circuits of some stretches; `parts` has the part of each path."""
        following = _following(stretches)
        around = _cycles(following)
        xy = stretches.xy
        swept = stretches.sums(_swept(xy - xy.mean(axis=0))) / 2
        part = np.empty(int(around.max()) + 1, dtype=np.intp)
        part[around] = np.repeat(parts[stretches.path], 2)
        return cls(
            stretches=stretches,
            following=following,
            beside=around.reshape(-1, 2),
            area=_totals(around, np.column_stack([swept, -swept]).ravel()),
            part=part,
        )

    def __len__(self) -> int:
        """Return how many there are."""
        return len(self.part)

    @cached_property
    def is_rim(self) -> NDArray[np.bool_]:
        """Which go round what hangs together from outside: one for each part."""
        order = np.lexsort((self.area, self.part))
        is_rim = np.zeros(len(order), dtype=bool)
        is_rim[order[np.diff(self.part[order], prepend=-1) != 0]] = True
        return is_rim

    @cached_property
    def box(self) -> tuple[Points, Points]:
        """The least and the greatest x and y of each."""
        xy, counts = self.stretches.xy, np.diff(self.stretches.starts)
        low, high = np.full((len(self), 2), np.inf), np.full((len(self), 2), -np.inf)
        for beside in np.repeat(self.beside, counts, axis=0).T:
            for axis in (0, 1):  # one column at a time takes a tenth of the time
                np.minimum.at(low[:, axis], beside, xy[:, axis])
                np.maximum.at(high[:, axis], beside, xy[:, axis])
        return low, high

    @property
    def place(self) -> Points:
        """A place on each."""
        first = np.empty(len(self), dtype=np.intp)
        first[self.beside.ravel()] = np.repeat(self.stretches.starts[:-1], 2)
        return self.stretches.xy.take(first, axis=0)


def _following(stretches: Stretches) -> _Indices:
    """Return for each side, twice the stretch plus 0 or 1, the side that comes after it.

    Side 0 is walked from the first node to the last, side 1 back; both keep their face on the
    same hand, so that circuits have a positive area from inside.
    """
    origin, angle = stretches.nodes.ravel(), stretches.headings.ravel()
    order = np.lexsort((angle, origin))
    rank = np.empty_like(order)
    rank[order] = np.arange(len(order))
    first = np.flatnonzero(np.diff(origin[order], prepend=-1))
    before = np.arange(len(order)) - 1
    before[first] = np.append(first[1:], len(order)) - 1
    return np.asarray(order[before[rank[np.arange(len(order)) ^ 1]]])


def _cycles(following: _Indices) -> _Indices:
    """Return the number of the circuit that each side is on: the cycles of a permutation."""
    own = np.arange(len(following), dtype=np.int32)  # there are no 500 million crossings
    label, jump = own, following.astype(np.int32)
    while True:
        lower = np.minimum(label, label[jump])
        if (lower == label).all():
            return np.asarray((np.cumsum(label == own) - 1)[label])
        label, jump = lower, jump[jump]


def _totals(of: _Indices, what: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.bincount(of, what).astype(np.float64)


def _swept(xy: Points) -> NDArray[np.float64]:
    """Return twice the area swept from each vertex to the next, none from the last."""
    swept = np.zeros(len(xy))
    (x, y), (x_next, y_next) = xy[:-1].T, xy[1:].T
    swept[:-1] = x * y_next
    swept[:-1] -= x_next * y
    return swept
