"""The direction of each walk of a fixed order, and where going on is cheaper than a cut."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import dist, inf
from typing import NamedTuple, TypeAlias

from stitchpath.route.hops import UNCUT_TRAVEL_MM, Barriers, may_hop
from stitchpath.route.joins import Joins
from stitchpath.route.walk import Walk

TRAVEL_SECONDS_PER_MM = 1e-6
"""What a move without sewing counts for: so little that it only decides between ways whose cuts
and joins cost the same. Larger would give a cut for travel; smaller is lost in rounding."""

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


class Passage(NamedTuple):
    """A walk sewn one way round; a tuple, since there are many.

    Attributes:
        walk: The walk; None for where the needle is before the first one.
        turned: Whether it is turned round.
        nodes: The nodes that it begins and ends on.
        start: Where it begins.
        end: Where it ends.
        may_join: Whether the needle may come to it or go on from it by a join.
    """

    walk: Walk | None
    turned: bool
    nodes: tuple[int, int]
    start: Place
    end: Place
    may_join: bool


class Choice(NamedTuple):
    """The least cost up to a walk sewn one way round, and how the walk before it was sewn."""

    passage: Passage
    seconds: float
    before: "Choice | None" = None
    joined: bool = False


class Turned(NamedTuple):
    """A walk in the direction that it is sewn in, and whether it is joined to the last."""

    walk: Walk
    turned: bool
    joined: bool


def standing(place: Place, node: int | None = None) -> Choice:
    """Return the choice that all begins with: where the needle is.

    Args:
        place: Where that is.
        node: The node it stands on, if it may go on from there by a join.
    """
    on = -1 if node is None else node
    here = Passage(
        walk=None, turned=False, nodes=(on, on), start=place, end=place, may_join=on >= 0
    )
    return Choice(passage=here, seconds=0.0)


def passages(
    walk: Walk, turns: Sequence[bool] = (False, True), *, may_join: bool = True
) -> list[Passage]:
    """Return a walk sewn as it is (False) and the other way round (True), as asked for."""
    start, end = walk.places
    first, last = walk.nodes
    return [
        Passage(walk, turned, (last, first), end, start, may_join)
        if turned
        else Passage(walk, turned, (first, last), start, end, may_join)
        for turned in turns
    ]


def onward(
    choices: Sequence[Choice], walks: Sequence[Sequence[Passage]], ways: Ways
) -> list[Choice]:
    """Return the cheapest ways to sew walks in order, one for each direction of the last.

    Exact: the least cost up to either direction of each walk is carried along.

    Args:
        choices: How what lies before may have been sewn; at least one.
        walks: For each walk in order, the ways round that it may be sewn; at least one each.
        ways: How the needle may get from one to the next.
    """
    reached = list(choices)
    for each in walks:
        reached = [_best_step(reached, passage, ways) for passage in each]
    return reached


def cheapest(choices: Sequence[Choice]) -> Choice:
    """Return the choice of the least cost, the first of equals."""
    return min(choices, key=_seconds)


def traced(last: Choice) -> list[Turned]:
    """Return the walks up to a choice, in order."""
    sewn: list[Turned] = []
    choice = last
    while choice.before is not None:
        walk, turned = choice.passage.walk, choice.passage.turned
        if walk is not None:
            way = walk.reversed if turned else walk
            sewn.append(Turned(walk=way, turned=turned, joined=choice.joined))
        choice = choice.before
    return sewn[::-1]


def _best_step(choices: list[Choice], passage: Passage, ways: Ways) -> Choice:
    """Return the cheapest way to a walk sewn one way round; the nearest is tried first.

    Joins that cost more than the best way so far need not be found: a cut costs even more.
    """
    best, is_joined, least = choices[0], False, inf
    travel = [dist(choice.passage.end, passage.start) for choice in choices]
    for index in sorted(range(len(choices)), key=travel.__getitem__):
        before = choices[index]
        within = least - before.seconds
        seconds, joined = _step(before.passage, passage, ways, travel[index], within)
        if before.seconds + seconds < least:
            best, is_joined, least = before, joined, before.seconds + seconds
    return Choice(passage=passage, seconds=least, before=best, joined=is_joined)


def _step(
    last: Passage, passage: Passage, ways: Ways, travel_mm: float, within: float
) -> tuple[float, bool]:
    """Return what it costs to go on to another walk, and whether by a join.

    A join is taken before a hop, and a hop before a cut. Where there is no hop, a join that
    costs more than a limit may be missed.
    """
    may = travel_mm <= UNCUT_TRAVEL_MM and may_hop(last.end, passage.start, ways.barriers)
    if last.may_join and passage.may_join:
        limit = inf if may else within
        seconds = ways.joins.seconds(last.nodes[1], passage.nodes[0], within=limit)
        if seconds is not None:
            return seconds, True
    cut = 0.0 if may else ways.joins.most_seconds
    return travel_mm * TRAVEL_SECONDS_PER_MM + cut, False


def _seconds(choice: Choice) -> float:
    return choice.seconds
