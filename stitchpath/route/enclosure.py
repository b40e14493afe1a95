"""The order of walks that run every way: least travel, but nothing is closed in if it can be.

A walk is *closed in* when every way from it to the outside crosses a line sewn before it. Which
walks may come last without being closed in does not get fewer when others are taken away, since
lines taken away only open loops. So taking away one walk after another that is not closed in
finds an order that closes nothing in whenever there is one (an antimatroid's way of working);
the order of sewing is that order backwards. Walks taken away in one round may be sewn
in any order among themselves.
"""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import chain

import numpy as np

from stitchpath.geometry.faces import find_faces
from stitchpath.geometry.points import Points
from stitchpath.route.travel import shortest_order
from stitchpath.route.walk import Walk

_Order = list[tuple[int, bool]]


@dataclass(slots=True, kw_only=True, eq=False)
class _Faces:
    """Faces between lines while lines are taken away; face 0 is the outside.

    Attributes:
        sides: For each walk, the faces on both sides of each of its stretches.
        root: A face that each is open to, not always the last one (union-find).
    """

    sides: list[list[tuple[int, int]]]
    root: dict[int, int] = field(default_factory=dict)

    def find(self, face: int) -> int:
        """Return the face that stands for all that are open to one; 0 for the outside."""
        while (above := self.root.get(face, face)) != face:
            self.root[face] = self.root.get(above, above)
            face = above
        return face

    def take_away(self, walk: int) -> list[tuple[int, int]]:
        """Open the faces on both sides of a walk to each other.

        Returns:
            (low, high) for each two that were not open to each other: low stands for both now.
        """
        opened = []
        for one, other in self.sides[walk]:
            low, high = sorted((self.find(one), self.find(other)))
            if low != high:
                self.root[high] = low  # the outside is the lowest: it stays what stands for all
                opened.append((low, high))
        return opened

    def closes_in(self, walk: int) -> bool:
        """Return whether a walk has a stretch that would not be open to the outside."""
        beside: dict[int, set[int]] = defaultdict(set)
        for one, other in self.sides[walk]:
            first, second = self.find(one), self.find(other)
            beside[first].add(second)
            beside[second].add(first)
        seen, waiting = {0}, [0]
        while waiting:
            for face in beside[waiting.pop()] - seen:
                seen.add(face)
                waiting.append(face)
        return not seen.issuperset(beside)


def inside_out(before: list[Walk], walks: list[Walk], *, start: Points) -> _Order:
    """Return walks in an order of little travel that closes none of them in, if there is one.

    Args:
        before: What is sewn already.
        walks: At least one.
        start: Where the needle is, shape (2,).

    Returns:
        (walk, turned) in order: that of least travel unless it closes more in. Where every
        order closes some in, few are, but fewest is not promised.

    Cost: that of finding the faces between all lines, then O(walks) for each round, and
    O(stretches) of a walk each time that a face beside it is opened.
    """
    order = shortest_order(np.array([walk.ends for walk in walks]), start=start)
    if len(walks) == 1:
        return order
    sides = _sides(before, walks)
    closed = _closed_in(sides, [walk for walk, _ in order])
    if not closed:
        return order
    rounds = _rounds(sides)
    other = _by_rounds(walks, rounds, start)
    return other if _closed_in(sides, [walk for walk, _ in other]) < closed else order


def _sides(before: list[Walk], walks: list[Walk]) -> list[list[tuple[int, int]]]:
    """Return for each walk the faces beside its stretches, among all that is sewn by then."""
    lines = [
        (number, line.points)
        for number, walk in enumerate([*before, *walks])
        for line in walk.lines
    ]
    faces = find_faces([points for _, points in lines])
    owner = np.array([number for number, _ in lines])[faces.borders.stretches.path]
    own: list[list[tuple[int, int]]] = [[] for _ in walks]
    for (one, other), number in zip(faces.sides.tolist(), owner.tolist(), strict=True):
        if number >= len(before):
            own[number - len(before)].append((one, other))
    return own


def _closed_in(sides: list[list[tuple[int, int]]], order: Iterable[int]) -> int:
    """Return how many walks are closed in when sewn in an order."""
    faces, count = _Faces(sides=sides), 0
    for walk in reversed(list(order)):
        count += faces.closes_in(walk)
        faces.take_away(walk)
    return count


def _rounds(sides: list[list[tuple[int, int]]]) -> list[list[int]]:
    """Return walks in rounds, those to be sewn first first.

    Where all that are left are closed in, the one with the most stretches beside the outside
    is given up. Only walks beside a face that was opened are looked at again.
    """
    faces, left = _Faces(sides=sides), dict.fromkeys(range(len(sides)))
    beside = _walks_by_face(sides)
    closed, outside = [True] * len(sides), [0] * len(sides)
    rounds: list[list[int]] = []
    changed = set(left)
    while left:
        for walk in changed & left.keys():
            closed[walk] = faces.closes_in(walk)
            outside[walk] = _beside_outside(faces, walk)
        gone = [walk for walk in left if not closed[walk]]
        gone = gone or [max(left, key=outside.__getitem__)]
        changed = set()
        for walk in gone:
            del left[walk]
            for low, high in faces.take_away(walk):
                changed |= beside[high]
                beside[low] |= beside.pop(high)
        rounds.append(gone)
    return rounds[::-1]


def _walks_by_face(sides: list[list[tuple[int, int]]]) -> dict[int, set[int]]:
    beside: dict[int, set[int]] = defaultdict(set)
    for walk, stretches in enumerate(sides):
        for face in chain.from_iterable(stretches):
            beside[face].add(walk)
    return beside


def _beside_outside(faces: _Faces, walk: int) -> int:
    return sum(0 in {faces.find(one), faces.find(other)} for one, other in faces.sides[walk])


def _by_rounds(walks: list[Walk], rounds: list[list[int]], start: Points) -> _Order:
    """Return walks round by round, each for least travel from where the last one ends."""
    order: _Order = []
    for own in rounds:
        ends = np.array([walks[index].ends for index in own])
        order += [(own[place], turn) for place, turn in shortest_order(ends, start=start)]
        last, turn = order[-1]
        start = walks[last].ends[0 if turn else 1]
    return order
