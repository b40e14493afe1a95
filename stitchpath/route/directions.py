"""The direction of each walk of a fixed order, and where going on is cheaper than a cut."""

from dataclasses import dataclass, replace
from math import dist, inf
from typing import TypeAlias

from stitchpath.route.hops import Barriers, may_hop
from stitchpath.route.joins import Joins
from stitchpath.route.walk import Walk

JUMP_SECONDS_PER_MM = 0.002
"""A move without sewing; it makes the shorter travel better among ways of as many cuts. Common
practice (some 500 mm a second), no source."""

Place: TypeAlias = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Ways:
    """How the needle may get from walk to walk.

    Attributes:
        joins: Ways over what is sewn anyway that cost less than a cut.
        barriers: What no hop crosses.
    """

    joins: Joins
    barriers: Barriers = None

    def without_joins(self) -> "Ways":
        """Return the same, but for hops and cuts alone."""
        return replace(self, joins=replace(self.joins, steps={}, searches={}))


@dataclass(frozen=True, slots=True, kw_only=True)
class Turned:
    """A walk as it is sewn: its index, whether turned round, and whether joined to the last."""

    index: int
    turned: bool
    joined: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class _Passage:
    """A walk sewn one way round: where it begins and ends, as nodes and places."""

    turned: bool
    nodes: tuple[int, int]
    start: Place
    end: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class _Choice:
    """The least cost up to a walk sewn one way round, and how the walk before it was sewn."""

    passage: _Passage
    seconds: float
    before: "_Choice | None" = None
    joined: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Needle:
    """Where the needle is, and on which node if it may go on from there by a join."""

    place: Place
    node: int = -1


def directed(
    walks: list[Walk], turns: list[tuple[bool, ...]], ways: Ways, needle: Needle
) -> tuple[float, list[Turned]]:
    """Return the least cost of sewing walks in order, and how each is sewn for it.

    Exact: the least cost up to either direction of each walk is carried along.

    Args:
        walks: In their order; at least one.
        turns: Which directions each may take: False as it is, True the other way round.
        ways: How the needle may get from one to the next.
        needle: Where it starts from.
    """
    passages = [_passages(walk, turn) for walk, turn in zip(walks, turns, strict=True)]
    here, node = needle.place, needle.node
    start = _Passage(turned=False, nodes=(node, node), start=here, end=here)
    choices = [_Choice(passage=start, seconds=0.0)]
    for options in passages:
        choices = [_best_step(choices, passage, ways) for passage in options]
    best = min(choices, key=_seconds)
    return best.seconds, _traced(best, len(walks))


def _passages(walk: Walk, turns: tuple[bool, ...]) -> list[_Passage]:
    start, end = (tuple(place) for place in walk.ends.tolist())
    both = {
        False: _Passage(turned=False, nodes=walk.nodes, start=start, end=end),
        True: _Passage(turned=True, nodes=walk.nodes[::-1], start=end, end=start),
    }
    return [both[turned] for turned in turns]


def _best_step(choices: list[_Choice], passage: _Passage, ways: Ways) -> _Choice:
    """Return the cheapest way to a walk sewn one way round; the nearest is tried first."""
    nearest = sorted(choices, key=lambda choice: dist(choice.passage.end, passage.start))
    best = _step(nearest[0], passage, ways, within=inf)
    for choice in nearest[1:]:
        step = _step(choice, passage, ways, within=best.seconds - choice.seconds)
        best = min(best, step, key=_seconds)
    return best


def _step(before: _Choice, passage: _Passage, ways: Ways, *, within: float) -> _Choice:
    """Return the way from one walk to another, by a join, a hop or a cut, in this order.

    Joins that cost more than a limit need not be found, since a cut costs even more.
    """
    last = before.passage
    may = may_hop(last.end, passage.start, ways.barriers)
    seconds = ways.joins.seconds(last.nodes[1], passage.nodes[0], within=inf if may else within)
    joined = seconds is not None
    if seconds is None:
        seconds = dist(last.end, passage.start) * JUMP_SECONDS_PER_MM
        seconds += 0.0 if may else ways.joins.most_seconds
    return _Choice(
        passage=passage, seconds=before.seconds + seconds, before=before, joined=joined
    )


def _seconds(choice: _Choice) -> float:
    return choice.seconds


def _traced(last: _Choice, count: int) -> list[Turned]:
    sewn: list[Turned] = []
    choice = last
    while choice.before is not None:
        count -= 1
        sewn.append(Turned(index=count, turned=choice.passage.turned, joined=choice.joined))
        choice = choice.before
    return sewn[::-1]
