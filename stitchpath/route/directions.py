"""The direction of each walk of a fixed order, and where going on is cheaper than a cut."""

from dataclasses import dataclass

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.route.joins import Joins
from stitchpath.route.walk import Walk

JUMP_SECONDS_PER_MM = 0.002
"""A move without sewing; it makes the shorter travel better among ways of as many cuts. Common
practice (some 500 mm a second), no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Turned:
    """A walk as it is sewn: its index, whether turned round, and whether joined to the last."""

    index: int
    turned: bool
    joined: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _Choice:
    """The least cost up to a walk sewn one way round, and how the walk before it was sewn."""

    seconds: float
    before: bool = False
    joined: bool = False


def directed(
    walks: list[Walk], turns: list[tuple[bool, ...]], joins: Joins, needle: Points
) -> tuple[float, list[Turned]]:
    """Return the least cost of sewing walks in order, and how each is sewn for it.

    Exact: the least cost up to either direction of each walk is carried along.

    Args:
        walks: In their order; at least one.
        turns: Which directions each may take: False as it is, True the other way round.
        joins: Ways over what is sewn anyway that cost less than a cut.
        needle: Where the needle is, shape (2,).
    """
    rows = [
        {
            turned: _Choice(seconds=_travel(needle, walks[0].ends[int(turned)]))
            for turned in turns[0]
        }
    ]
    for index in range(1, len(walks)):
        rows.append(
            {
                turned: min(
                    (
                        _step(walks[index - 1], last, walks[index], turned, choice, joins)
                        for last, choice in rows[-1].items()
                    ),
                    key=lambda choice: choice.seconds,
                )
                for turned in turns[index]
            }
        )
    return _traced(rows)


def _step(
    walk: Walk, turned: bool, after: Walk, after_turned: bool, choice: _Choice, joins: Joins
) -> _Choice:
    way = joins.seconds(walk.nodes[1 - int(turned)], after.nodes[int(after_turned)])
    if way is not None:
        return _Choice(seconds=choice.seconds + way, before=turned, joined=True)
    travel = _travel(walk.ends[1 - int(turned)], after.ends[int(after_turned)])
    return _Choice(seconds=choice.seconds + joins.most_seconds + travel, before=turned)


def _travel(start: Points, end: Points) -> float:
    return float(np.hypot(*(end - start))) * JUMP_SECONDS_PER_MM


def _traced(rows: list[dict[bool, _Choice]]) -> tuple[float, list[Turned]]:
    turned = min(rows[-1], key=lambda last: rows[-1][last].seconds)
    least = rows[-1][turned].seconds
    sewn: list[Turned] = []
    for index in range(len(rows) - 1, -1, -1):
        choice = rows[index][turned]
        sewn.append(Turned(index=index, turned=turned, joined=choice.joined))
        turned = choice.before
    return least, sewn[::-1]
