"""Circuits: ways along stretches, each with one face on the same hand all the way.

Method: every stretch between two nodes has two sides. Walking along a stretch with a side to
the left, the next stretch at its end is the next one round the node (a doubly connected edge
list, textbook computational geometry). Such a circuit bounds one face from inside, or all that
hangs together from outside: its *rim*.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, parts_of, segment_lengths
from stitchpath.geometry.stretches import Stretches
from stitchpath.geometry.tolerance import STRAIGHT_RAD

_Indices = NDArray[np.intp]


@dataclass(frozen=True, kw_only=True, eq=False)
class Circuits:
    """The circuits of some stretches; what else they are is found when it is asked for.

    Attributes:
        stretches: The stretches.
        following: For each side, the one that comes after it.
        sides: The circuits on the two sides of each stretch, shape (stretches, 2).
        area: What each walks round, mm2; negative from outside.
        part: Which of the parts that hang together each is on.
    """

    stretches: Stretches
    following: _Indices
    sides: _Indices
    area: NDArray[np.float64]
    part: _Indices

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
        """The corners of each one's box with the smallest x and y, and with the largest."""
        low, high = np.full((len(self), 2), np.inf), np.full((len(self), 2), -np.inf)
        for pick, corners in ((np.minimum, low), (np.maximum, high)):
            _spread(pick, corners, self.sides, self.stretches)
        return low, high

    @property
    def place(self) -> Points:
        """Somewhere on each, shape (n, 2), mm."""
        first = np.empty(len(self), dtype=np.intp)
        first[self.sides.ravel()] = np.repeat(self.stretches.starts[:-1], 2)
        return self.stretches.xy.take(first, axis=0)

    @property
    def widest(self) -> NDArray[np.float64]:
        """For each a radius, mm, that no circle inside it exceeds.

        A circle is no wider than the box round the circuit, and no larger than its area. Where
        the circuit never turns away, the area is at least half the radius times the way round.
        """
        around, (low, high) = self.sides.ravel(), self.box
        length = self.stretches.sums(np.append(segment_lengths(self.stretches.xy), 0.0))
        way = _totals(around, np.repeat(length, 2))
        is_convex = _totals(around, _turns_out(self.stretches, self.following)) == 0
        by_box = np.minimum(*(high - low).T) / 2
        by_area = np.sqrt(np.maximum(self.area, 0) / np.pi)
        by_way = np.where(is_convex, 2 * self.area / way, np.inf)
        return np.asarray(np.minimum(np.minimum(by_box, by_area), by_way))


def find_circuits(stretches: Stretches, parts: _Indices) -> Circuits:
    """Return the circuits along some stretches; there is at least one.

    Args:
        stretches: The stretches.
        parts: For each path, the part that it hangs together with.
    """
    following = _following(stretches)
    around = _numbers(following)
    swept = stretches.sums(_swept(stretches.xy - stretches.xy.mean(axis=0))) / 2
    part = np.empty(int(around.max()) + 1, dtype=np.intp)
    part[around] = np.repeat(parts[stretches.path], 2)
    return Circuits(
        stretches=stretches,
        following=following,
        sides=around.reshape(-1, 2),
        area=_totals(around, np.column_stack([swept, -swept]).ravel()),
        part=part,
    )


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


def _numbers(following: _Indices) -> _Indices:
    """Return the number of the circuit that each side is on: the cycles of a permutation."""
    own = np.arange(len(following), dtype=np.int32)  # there are no 500 million crossings
    label, jump = own, following.astype(np.int32)
    while True:
        lower = np.minimum(label, label[jump])
        if (lower == label).all():
            return np.asarray((np.cumsum(label == own) - 1)[label])
        label, jump = lower, jump[jump]


def _spread(pick: np.ufunc, corners: Points, sides: _Indices, stretches: Stretches) -> None:
    """Put in the least or the greatest x and y of each circuit.

    Axis by axis: numpy picks single numbers several times faster than rows of two.
    """
    for axis in (0, 1):
        edge = pick.reduceat(stretches.xy[:, axis], stretches.starts[:-1])
        own = corners[:, axis].copy()
        for side in (0, 1):
            pick.at(own, sides[:, side], edge)
        corners[:, axis] = own


def _totals(of: _Indices, what: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.bincount(of, what).astype(np.float64)


def _swept(xy: Points) -> NDArray[np.float64]:
    """Return twice the area swept from each vertex to the next, none from the last."""
    swept = np.zeros(len(xy))
    (x, y), (x_next, y_next) = xy[:-1].T, xy[1:].T
    swept[:-1] = x * y_next
    swept[:-1] -= x_next * y
    return swept


def _turns_out(stretches: Stretches, following: _Indices) -> NDArray[np.float64]:
    """Return how often each side's walk turns away from its face, its end included."""
    angle = stretches.headings
    turn = angle.ravel()[following]
    turn -= angle[:, ::-1].ravel()
    turn -= np.pi
    turn -= 2 * np.pi * np.round(turn / (2 * np.pi))
    return np.asarray(_bends_out(stretches).ravel() + _is_out(turn))


def _bends_out(stretches: Stretches) -> NDArray[np.float64]:
    """Return how often each side turns away from its face on its own way, shape (n, 2)."""
    bend = np.zeros(len(stretches.xy))
    for part in parts_of(len(bend) - 2):
        steps = np.diff(stretches.xy[part.start : part.stop + 2], axis=0)
        step, after = steps[:-1], steps[1:]
        across = step[:, 0] * after[:, 1] - step[:, 1] * after[:, 0]
        ahead = step[:, 0] * after[:, 0] + step[:, 1] * after[:, 1]
        bend[part] = np.arctan2(across, ahead)
    bend[stretches.starts[1:] - 2] = 0  # that is the turn to the next stretch
    along = [stretches.sums(_is_out(sign * bend).astype(np.float64)) for sign in (1, -1)]
    return np.column_stack(along)


def _is_out(turn: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Return which turns, in radians, lead away from the face; turning right back does."""
    return (turn < -STRAIGHT_RAD) | (np.pi - STRAIGHT_RAD < turn)
