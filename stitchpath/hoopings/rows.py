"""Covers in rows or columns, each beginning where its lines do, of the kind that suits it."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.hoopings.grid import evenly, holds
from stitchpath.hoopings.needs import Needs
from stitchpath.hoopings.places import Cover, Kind, Place


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Spans:
    """Content along one axis: pieces and whole parts, by where they begin and end, mm."""

    low: NDArray[np.float64]
    high: NDArray[np.float64]
    is_whole: NDArray[np.bool_]

    def those(self, rows: NDArray[np.bool_]) -> "_Spans":
        """Return some of them."""
        return _Spans(low=self.low[rows], high=self.high[rows], is_whole=self.is_whole[rows])


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Content:
    """What has to be reached, across the rows and along them, in the same order."""

    across: _Spans
    along: _Spans
    axis: int
    room_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class _Stack:
    """Rows laid so far: where each begins, its kind, the centres of its fields along it."""

    starts: tuple[float, ...] = ()
    kinds: tuple[Kind, ...] = ()
    rows: tuple[tuple[float, ...], ...] = ()
    next_start: float
    done: float
    ring_mm2: float = 0.0


def row_cover(
    needs: Needs, kinds: tuple[Kind, ...], *, room_mm: float, most: int, down: bool
) -> Cover | None:
    """Return rows of fields, each of the kind that suits it, shifted to where its lines are.

    For every number of fields the stack of rows that reaches farthest is carried along, so rows
    of several kinds are mixed where that needs fewer.

    Args:
        needs: What has to be reached.
        kinds: What fields there are.
        room_mm: By how much neighbours overlap at the least.
        most: Covers of more places are of no use.
        down: Rows follow one another downwards; otherwise columns follow to the right.

    Cost: O(most x kinds x fields in a row x cores), in whole arrays.
    """
    content = _content(needs, axis=1 if down else 0, room_mm=room_mm)
    first = float(content.across.low.min())
    best = {0: _Stack(next_start=first, done=float("-inf"))}
    for count in range(most + 1):
        stack = best.get(count)
        if stack is None:
            continue
        if stack.next_start == float("inf"):
            return _relaxed(stack, content, needs)
        for kind in kinds:
            longer = _with_row(stack, kind, content)
            if longer is not None:
                fields = count + len(longer.rows[-1])
                known = best.get(fields)
                if known is None or _rank(longer) < _rank(known):
                    best[fields] = longer
    return None


def _rank(stack: _Stack) -> tuple[float, float]:
    return -stack.next_start, stack.ring_mm2


def _content(needs: Needs, *, axis: int, room_mm: float) -> _Content:
    every = np.concatenate([needs.pieces, needs.wholes])
    is_whole = np.arange(len(every)) >= len(needs.pieces)
    across, along = (
        _Spans(low=every[:, way], high=every[:, way + 2], is_whole=is_whole)
        for way in (axis, 1 - axis)
    )
    return _Content(across=across, along=along, axis=axis, room_mm=room_mm)


def _with_row(
    stack: _Stack, kind: Kind, content: _Content, start: float | None = None
) -> _Stack | None:
    """Return a stack with one row more, or None where the kind does not hold a whole part."""
    start = stack.next_start if start is None else start
    end = start + kind.reach[content.axis]
    across = content.across
    left = across.high > stack.done
    todo = left & (across.high > end + SAME_POINT_MM)
    following = _next_start(across.those(todo), end, content.room_mm)
    if following <= start + SAME_POINT_MM:
        return None
    mine = left & (~todo | (~across.is_whole & (across.low < following)))
    row = _row(content.along.those(mine), kind.reach[1 - content.axis], content.room_mm)
    if row is None:
        return None
    return _Stack(
        starts=(*stack.starts, start),
        kinds=(*stack.kinds, kind),
        rows=(*stack.rows, row),
        next_start=following,
        done=end + SAME_POINT_MM,
        ring_mm2=stack.ring_mm2 + len(row) * kind.ring_mm2,
    )


def _next_start(todo: _Spans, end: float, room: float) -> float:
    """Return where the next field begins: at what is left, but no later than the overlap."""
    if not len(todo.low):
        return float("inf")
    first = max(float(todo.low.min()), end - room)
    return min(first, float(todo.low[todo.is_whole].min(initial=np.inf)))


def _row(spans: _Spans, reach: float, room: float) -> tuple[float, ...] | None:
    """Return the centres of the fewest fields that reach spans; None if a whole is too long.

    Fields that follow on one another are spread evenly over what they reach together. Where
    something whole might not bear that, the last one alone is drawn back to what it reaches:
    else its hoop might lie beside the piece.
    """
    starts: list[float] = []
    start = float(spans.low.min(initial=np.inf))
    todo = spans
    while len(todo.low):
        starts.append(start)
        todo = todo.those(todo.high > start + reach + SAME_POINT_MM)
        following = _next_start(todo, start + reach, room)
        if following <= start + SAME_POINT_MM:
            return None
        start = following
    centres: list[float] = []
    for group in _linked(starts, reach - room):
        last = group[-1] + reach + SAME_POINT_MM
        inside = (group[0] <= spans.low) & (spans.high <= last)
        end = float(spans.high[inside].max(initial=group[0]))
        if spans.is_whole[inside].any() and len(group) > 1:
            drawn_back = min(group[-1], end - reach)
            centres += [start + reach / 2 for start in (*group[:-1], drawn_back)]
        else:
            centres += evenly(group[0], end, reach=reach, room=room).tolist()
    return tuple(centres)


def _linked(starts: list[float], step: float) -> list[list[float]]:
    """Return fields in groups, parted where one begins anew and does not overlap the last."""
    groups = [starts[:1]] if starts else []
    for before, start in pairwise(starts):
        if step + SAME_POINT_MM < start - before:
            groups.append([])
        groups[-1].append(start)
    return groups


def _relaxed(stack: _Stack, content: _Content, needs: Needs) -> Cover:
    """Return a stack as places, its rows spread over their slack where that costs nothing."""
    tight = _places(stack, content.axis)
    end = float(content.across.high.max())
    count = len(stack.starts)
    slack = stack.starts[-1] + stack.kinds[-1].reach[content.axis] - end
    spread = _Stack(next_start=stack.starts[0], done=float("-inf"))
    for at, (tight_start, kind) in enumerate(zip(stack.starts, stack.kinds, strict=True)):
        start = tight_start - slack * (2 * at + 1) / (2 * count)
        moved = _with_row(spread, kind, content, start)
        if moved is None or spread.next_start + SAME_POINT_MM < start:
            return tight
        spread = moved
    cover = _places(spread, content.axis)
    is_as_good = len(cover) <= len(tight) and spread.next_start == float("inf")
    return cover if is_as_good and holds(cover, needs.wholes) else tight


def _places(stack: _Stack, axis: int) -> Cover:
    places = []
    for start, kind, row in zip(stack.starts, stack.kinds, stack.rows, strict=True):
        across = start + kind.reach[axis] / 2
        places += [
            Place(kind=kind, centre=(along, across) if axis == 1 else (across, along))
            for along in row
        ]
    return tuple(places)
