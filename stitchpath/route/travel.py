"""The order and direction of walks that takes the least travel.

Method: nearest neighbour, then improvement as long as anything helps, by turning a part of the
order round (2-opt) and by moving a few walks elsewhere (or-opt), trying only places that are
near; then again after each of many small seeded disturbances, keeping the best (iterated local
search: Lourenço, Martin and Stützle 2003, from memory). No optimum is promised.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import pairwise
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import LEAST_GAIN_MM
from stitchpath.route.away import Away, find_away
from stitchpath.route.near import find_near, nearest_first

MOST_DISTURBED = 400
"""An order of more walks is improved once and not disturbed: that takes a time that grows
little faster than their number."""
_LONGEST_CHANGED = 3000
"""No longer part of an order is turned round or moved past, for the same reason."""
_ROUNDS_EACH, _MOST_ROUNDS = 4, 800
"""How often the order is disturbed: for each walk, and at the most."""
_LOSS = 0.02
"""An order worse than the best by less than this share is gone on from; less and less."""
_LONGEST_MOVED = 3
_LONGEST_EXCHANGED = 30

_Change: TypeAlias = tuple[float, int, int, list[int]]
"""What a change gains, and the part of the order that it replaces: from, to, by what."""


def shortest_order(ends: NDArray[np.float64], *, start: Points) -> list[tuple[int, bool]]:
    """Return walks in an order of little travel, each with whether it is turned round.

    Args:
        ends: Where each walk begins and ends, shape (n, 2, 2), mm.
        start: Where the needle is, shape (2,).

    Returns:
        (walk, turned) in order; its travel is never more than that of nearest neighbour.
    """
    near = find_near(ends, start)
    order = nearest_first(ends, start, near)
    if len(ends) > 1:
        order = _improved(ends, start, order, near)
    return [(code // 2, bool(code % 2)) for code in order]


def _improved(
    ends: NDArray[np.float64], start: Points, order: list[int], near: list[list[int]]
) -> list[int]:
    search = _Search(
        ways=find_away(ends, start),
        near=near,
        place=[0] * (len(ends) + 1),
    )
    search.take([2 * len(ends), *order, 2 * len(ends) + 1])
    search.descend(search.order)
    if len(ends) > MOST_DISTURBED:
        return search.order[1:-1]
    best, most = search.order, search.gained
    travel = search.travel()
    chance = np.random.Generator(np.random.PCG64(len(ends)))
    rounds = min(_ROUNDS_EACH * len(ends), _MOST_ROUNDS)
    for number, draw in enumerate(chance.random((rounds, 3)).tolist()):
        kept, gained = search.order, search.gained
        search.descend(search.disturbed(draw))
        if most + LEAST_GAIN_MM < search.gained:
            best, most = search.order, search.gained
        loss = _LOSS * travel * (1 - number / rounds)
        if search.gained < most - loss:
            search.take(kept)
            search.gained = gained
    return best[1:-1]


@dataclass(slots=True, kw_only=True, eq=False)
class _Search:
    """An order while it is improved.

    Walks are codes, see `away`. The order is seen from its start or from its end,
    each code then turned round, since the same changes are found from either side.

    Attributes:
        ways: The travel from each code to each, seen from the start and from the end.
        near: For each code but the end's, those that are near after it, nearest first.
        place: Where each walk stands in the order; the start's is 0 from either side.
        order: The codes in order, with those of start and end.
        gained: The travel saved so far, mm.
        from_end: Whether the order is seen from its end.
    """

    ways: tuple[Away, Away]
    near: list[list[int]]
    place: list[int]
    order: list[int] = field(default_factory=list)
    gained: float = 0.0
    from_end: bool = False

    def take(self, order: list[int]) -> None:
        """Take another order, seen from its start."""
        self.order, self.from_end = order, False
        self._find_places()

    def travel(self) -> float:
        """Return the travel of the order, seen from its start, mm."""
        return sum(self.ways[0][one][other] for one, other in pairwise(self.order))

    def descend(self, codes: Iterable[int]) -> None:
        """Change the order while any change near some codes gains."""
        here = there = list(dict.fromkeys(code // 2 for code in codes))
        while here or self.from_end:
            touched = self._change_near(here)
            here, there = [*there, *touched], touched
            self.order = [code ^ 1 for code in reversed(self.order)]
            self.from_end = not self.from_end
            self._find_places()

    def disturbed(self, draw: tuple[float, float, float]) -> list[int]:
        """Exchange two neighbouring parts of the order; return the codes beside the cuts."""
        order, last = self.order, len(self.order) - 1
        one = 1 + int(draw[0] * (last - 2))
        two = one + 1 + int(draw[1] * min(_LONGEST_EXCHANGED, last - one - 1))
        three = two + 1 + int(draw[2] * min(_LONGEST_EXCHANGED, last - two))
        new = [*order[two:three], *order[one:two]]
        way = self.ways[0]
        before = sum(way[order[cut - 1]][order[cut]] for cut in (one, two, three))
        self.order = [*order[:one], *new, *order[three:]]
        order, middle = self.order, one + three - two
        cuts = (one, middle, three)
        self.gained += before - sum(way[order[cut - 1]][order[cut]] for cut in cuts)
        self._find_places()
        return [order[cut + side] for cut in cuts for side in (-1, 0)]

    def _find_places(self) -> None:
        for place, code in enumerate(self.order[:-1]):
            self.place[code // 2] = place

    def _change_near(self, walks: list[int]) -> list[int]:
        """Change the order while any change after some walks gains; return the walks moved."""
        waiting, touched = list(walks), []
        while waiting:
            change = self._change_after(self.place[waiting[-1]])
            if change is None:
                waiting.pop()
                continue
            gain, first, last, new = change
            self.gained += gain
            self.order[first:last] = new
            for place, code in enumerate(new, first):
                self.place[code // 2] = place
            beside = [first - 1, first, last - 1, last]
            walks = [self.order[place] // 2 for place in beside if place < len(self.order) - 1]
            waiting += walks
            touched += walks
        return list(dict.fromkeys(touched))

    def _change_after(self, place: int) -> _Change | None:
        """Return a change that gains by having another code after the one at a place."""
        order, way = self.order, self.ways[self.from_end]
        code, after = order[place], order[place + 1]
        now = way[code][after]
        for wanted in self.near[code]:
            saved = now - way[code][wanted]
            if saved <= LEAST_GAIN_MM:
                return None
            at = self.place[wanted // 2]
            if abs(at - place) > _LONGEST_CHANGED:
                continue
            turns = order[at] != wanted
            change = self._turning(place, at, saved) if turns else None
            change = change or self._moving(place, at, saved, turns=turns)
            if change is not None:
                return change
        return None

    def _turning(self, place: int, at: int, saved: float) -> _Change | None:
        """Turn the part between two places round, so that what they end in follows."""
        order, way = self.order, self.ways[self.from_end]
        first, last = sorted((place, at))
        gain = (
            saved + way[order[at]][order[at + 1]] - way[order[first + 1] ^ 1][order[last + 1]]
        )
        if gain <= LEAST_GAIN_MM:
            return None
        part = order[first + 1 : last + 1]
        return gain, first + 1, last + 1, [code ^ 1 for code in reversed(part)]

    def _moving(self, place: int, at: int, saved: float, *, turns: bool) -> _Change | None:
        """Move a few codes from one place to behind another, turned round or as they are."""
        order, way = self.order, self.ways[self.from_end]
        behind = order[place + 1]
        for size in range(_LONGEST_MOVED):
            first, last = (at - size, at) if turns else (at, at + size)
            if first < 1 or last > len(order) - 2 or first - 1 <= place <= last:
                return None
            tail = order[first] ^ 1 if turns else order[last]
            gain = (
                saved
                + way[order[first - 1]][order[first]]
                + way[order[last]][order[last + 1]]
                - way[order[first - 1]][order[last + 1]]
                - way[tail][behind]
            )
            if gain > LEAST_GAIN_MM:
                return self._moved(gain, place, first, last, turns=turns)
        return None

    def _moved(self, gain: float, place: int, first: int, last: int, *, turns: bool) -> _Change:
        order = self.order
        part = order[first : last + 1]
        if turns:
            part = [code ^ 1 for code in reversed(part)]
        if place < first:
            return gain, place + 1, last + 1, [*part, *order[place + 1 : first]]
        return gain, first, place + 1, [*order[last + 1 : place + 1], *part]
