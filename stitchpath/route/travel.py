"""The order and direction of walks that takes the least travel.

Method: nearest neighbour, then improvement while anything helps, by turning a part of the order
round (2-opt) and by moving a few walks elsewhere (or-opt), and again after small seeded
disturbances, keeping the best. No optimum is promised.
"""

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points

MOST_IMPROVED = 400
"""Of more walks only the nearest neighbour's order is taken: improvement takes the square."""
_ROUNDS = 60
_LONGEST_MOVED = 3
_GAIN_MM = 1e-9


def shortest_order(ends: NDArray[np.float64], *, start: Points) -> list[tuple[int, bool]]:
    """Return walks in an order of little travel, each with whether it is turned round.

    Args:
        ends: Where each walk begins and ends, shape (n, 2, 2), mm.
        start: Where the needle is, shape (2,).

    Returns:
        (walk, turned) in order; its travel is never more than that of nearest neighbour.
    """
    order = _nearest(ends, start)
    if 1 < len(ends) <= MOST_IMPROVED:
        order = _improved(ends, start, order)
    return [(int(code) // 2, bool(code % 2)) for code in order]


def _nearest(ends: NDArray[np.float64], start: Points) -> NDArray[np.intp]:
    """Return codes 2 * walk + turned."""
    free = ends.copy()
    order = np.empty(len(ends), dtype=np.intp)
    needle = start
    for place in range(len(ends)):
        away = np.hypot(free[..., 0] - needle[0], free[..., 1] - needle[1]).ravel()
        code = int(np.argmin(away))
        order[place] = code
        needle = ends[code // 2, 1 - code % 2]
        free[code // 2] = np.inf
    return order


def _improved(
    ends: NDArray[np.float64], start: Points, order: NDArray[np.intp]
) -> NDArray[np.intp]:
    enters = ends.reshape(-1, 2)  # by code: where the walk is entered
    leaves = ends[:, ::-1].reshape(-1, 2)
    way = np.hypot(*(leaves[:, None] - enters[None]).transpose(2, 0, 1))
    first = np.hypot(*(enters - start).T)
    chance = np.random.Generator(np.random.PCG64(len(ends)))
    best = _descend(order, way, first)
    least = _cost(best, way, first)
    for _ in range(_ROUNDS):
        tried = _descend(_disturbed(best, chance), way, first)
        cost = _cost(tried, way, first)
        if cost < least - _GAIN_MM:
            best, least = tried, cost
    return best


def _cost(
    order: NDArray[np.intp], way: NDArray[np.float64], first: NDArray[np.float64]
) -> float:
    return float(first[order[0]] + way[order[:-1], order[1:]].sum())


def _descend(
    order: NDArray[np.intp], way: NDArray[np.float64], first: NDArray[np.float64]
) -> NDArray[np.intp]:
    while True:
        better = _turned_part(order, way, first)
        if better is None:
            better = _moved_part(order, way, first)
        if better is None:
            return order
        order = better


def _turned_part(
    order: NDArray[np.intp], way: NDArray[np.float64], first: NDArray[np.float64]
) -> NDArray[np.intp] | None:
    """Return the order with the part turned round that saves most, or None."""
    before = np.concatenate([[0.0], way[order[:-1], order[1:]]])
    before[0] = first[order[0]]
    after = np.append(before[1:], 0.0)
    back = order ^ 1
    into = np.vstack([first[back], way[order[:-1]][:, back]])  # [i, j]: i - 1 to j turned
    out = np.hstack(
        [way[back][:, order[1:]], np.zeros((len(order), 1))]
    )  # [i, j]: i turned to j + 1
    gain = before[:, None] + after[None] - into - out
    gain = np.triu(gain)
    one, two = np.unravel_index(int(np.argmax(gain)), gain.shape)
    if gain[one, two] <= _GAIN_MM:
        return None
    return np.concatenate([order[:one], back[one : two + 1][::-1], order[two + 1 :]])


def _moved_part(
    order: NDArray[np.intp], way: NDArray[np.float64], first: NDArray[np.float64]
) -> NDArray[np.intp] | None:
    """Return the order with a few walks moved elsewhere, either way round, or None."""
    count = len(order)
    into = np.vstack([first, way[order]])  # [p, code]: from before place p into a code
    joins = np.append(into[np.arange(count), order], 0.0)
    best_gain, best = _GAIN_MM, None
    for size in range(1, min(_LONGEST_MOVED, count - 1) + 1):
        begin = np.arange(count - size + 1)
        head, tail = order[begin], order[begin + size - 1]
        after = np.append(order, 0)[begin + size]
        closed = np.where(begin + size < count, into[begin, after], 0.0)
        saved = joins[begin] + joins[begin + size] - closed
        place = np.arange(count + 1)
        allowed = (place < begin[:, None]) | (begin[:, None] + size < place)
        for turned in (False, True):
            enter, leave = (tail ^ 1, head ^ 1) if turned else (head, tail)
            out = np.hstack([way[leave][:, order], np.zeros((len(begin), 1))])
            gain = saved[:, None] - (into[:, enter].T + out - joins[None])
            gain = np.where(allowed, gain, -np.inf)
            one, two = np.unravel_index(int(np.argmax(gain)), gain.shape)
            if best_gain < gain[one, two]:
                best_gain = float(gain[one, two])
                best = (int(one), size, int(two), turned)
    return None if best is None else _with_moved(order, *best)


def _with_moved(
    order: NDArray[np.intp], begin: int, size: int, place: int, turned: bool
) -> NDArray[np.intp]:
    part = order[begin : begin + size]
    part = part[::-1] ^ 1 if turned else part
    if place < begin:
        return np.concatenate([order[:place], part, order[place:begin], order[begin + size :]])
    return np.concatenate([order[:begin], order[begin + size : place], part, order[place:]])


def _disturbed(order: NDArray[np.intp], chance: np.random.Generator) -> NDArray[np.intp]:
    """Return the order with two neighbouring parts of it exchanged (the double bridge)."""
    if len(order) < 4:  # noqa: PLR2004 - fewer have no two inner parts
        return order
    one, two, three = np.sort(chance.choice(len(order) + 1, size=3, replace=False))
    return np.concatenate([order[:one], order[two:three], order[one:two], order[three:]])
