"""How rectangles lie on a length of cloth, so that little of it is bought.

Method. Each piece in turn is put at the place nearest to the cut end, and there nearest to the
left selvedge, where it meets no other (bottom left). What order and which pieces lie turned is
searched: all orders of few pieces, and for more the usual orders and then swaps and turns as
long as one of them saves cloth.

Source: bottom-left packing of a strip, B. S. Baker, E. G. Coffman, R. L. Rivest 1980 (from
memory). Limits: a heuristic; tests hold it within 10 % of an exact solver. The tries are
limited, so many pieces may be laid a little worse than they could be.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import permutations, product
from typing import Final, TypeAlias

from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.estimate import LaidPiece, Rectangle

_ALL_ORDERS: Final = 4
"""Pieces of which every order and turn is tried: 24 orders, 16 turns."""
_MOST_TRIES: Final = 600
_MOST_WORK: Final = 40_000
"""Tries times the square of the pieces; keeps a cloth of very many panels quick."""

Order: TypeAlias = tuple[tuple[int, bool], ...]
"""Which piece comes when, and whether it is turned."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """Pieces as they lie, and how much of the cloth's length they take, mm."""

    pieces: tuple[LaidPiece, ...]
    length: float


def lay_out(rectangles: Sequence[Rectangle], width: float) -> Laid:
    """Return how pieces lie on cloth of a width.

    Args:
        rectangles: Each fits the width, turned where it may be.
        width: Between the selvedges, mm.

    Raises:
        ValueError: A piece is too wide (a caller's bug: such a piece is cut in parts first).

    Example:
        >>> two = [Rectangle(what="a", width=300, length=900)] * 2
        >>> lay_out(two, 1000).length
        600.0
    """
    for piece in rectangles:
        if not fits(piece, width):
            raise ValueError(f"{piece.what} is wider than the cloth")
    bands = [piece for piece in rectangles if _is_band(piece, rectangles, width)]
    rest = [piece for piece in rectangles if piece not in bands]
    laid = _search(rest, width)
    length = laid.length
    pieces = list(laid.pieces)
    for piece in bands:
        turned = width + SAME_POINT_MM < piece.width
        wide, long = _sides(piece, turned=turned)
        pieces.append(LaidPiece(what=piece.what, x=0.0, y=length, width=wide, length=long))
        length += long
    return Laid(pieces=tuple(pieces), length=float(length))


def fits(piece: Rectangle, width: float) -> bool:
    """Tell whether a piece fits the cloth's width, turned where it may be."""
    most = width + SAME_POINT_MM
    return piece.width <= most or (piece.may_turn and piece.length <= most)


def _is_band(piece: Rectangle, others: Sequence[Rectangle], width: float) -> bool:
    """Tell whether a piece can lie in one way only, and leaves no room beside it."""
    ways = [
        side
        for side, allowed in ((piece.width, True), (piece.length, piece.may_turn))
        if allowed and side <= width + SAME_POINT_MM
    ]
    least = min(min(one.width, one.length) for one in others)
    return len(ways) == 1 and width - ways[0] + SAME_POINT_MM < least


def _search(rectangles: Sequence[Rectangle], width: float) -> Laid:
    if not rectangles:
        return Laid(pieces=(), length=0.0)
    area = sum(piece.width * piece.length for piece in rectangles)
    bound = max(area / width, *(_shortest(piece, width) for piece in rectangles))
    tried: list[tuple[Laid, Order]] = []
    for order in _orders(rectangles, width):
        tried.append((_lay(rectangles, order, width), order))
        if tried[-1][0].length <= bound + SAME_POINT_MM:
            return tried[-1][0]
    tried.sort(key=lambda one: one[0].length)
    if len(rectangles) <= _ALL_ORDERS:
        return tried[0][0]
    return _improve(rectangles, tried, bound, width)


def _improve(
    rectangles: Sequence[Rectangle],
    starts: Sequence[tuple[Laid, Order]],
    bound: float,
    width: float,
) -> Laid:
    """Turn, swap and move pieces as long as that saves cloth, from the best starts on."""
    best, left = starts[0][0], min(_MOST_TRIES, _MOST_WORK // len(rectangles) ** 2)
    seen = {order for _, order in starts}
    for first, start in starts:
        order, shortest = start, first.length
        fresh = _neighbours(rectangles, order, width)
        while (other := next((one for one in fresh if one not in seen), None)) and left:
            seen.add(other)
            laid, left = _lay(rectangles, other, width), left - 1
            if laid.length < best.length:
                best = laid
            if laid.length < shortest - SAME_POINT_MM:
                order, shortest = other, laid.length
                fresh = _neighbours(rectangles, order, width)
        if best.length <= bound + SAME_POINT_MM:
            break
    return best


def _orders(rectangles: Sequence[Rectangle], width: float) -> Iterator[Order]:
    numbers = range(len(rectangles))
    if len(rectangles) <= _ALL_ORDERS:
        for turns in product(*(_turns(piece, width) for piece in rectangles)):
            for order in permutations(numbers):
                yield tuple((number, turns[number]) for number in order)
        return
    for prefers_long in (False, True):
        turns = tuple(_preferred(piece, width, long=prefers_long) for piece in rectangles)
        sides = [
            _sides(piece, turned=turn) for piece, turn in zip(rectangles, turns, strict=True)
        ]
        for key in (lambda s: s[1], lambda s: s[0], lambda s: s[0] * s[1], max):
            ranks = [key(pair) for pair in sides]
            sizes = sorted(numbers, key=ranks.__getitem__, reverse=True)
            yield tuple((number, turns[number]) for number in sizes)


def _neighbours(rectangles: Sequence[Rectangle], order: Order, width: float) -> Iterator[Order]:
    for place, (number, turned) in enumerate(order):
        if len(_turns(rectangles[number], width)) > 1:
            yield (*order[:place], (number, not turned), *order[place + 1 :])
    for one in range(len(order)):
        for other in range(one + 1, len(order)):
            swapped = list(order)
            swapped[one], swapped[other] = swapped[other], swapped[one]
            yield tuple(swapped)
            rest = (*order[:one], *order[one + 1 :])
            yield (*rest[:other], order[one], *rest[other:])


def _turns(piece: Rectangle, width: float) -> tuple[bool, ...]:
    """Return in which ways a piece can lie."""
    most = width + SAME_POINT_MM
    ways = (False, True) if piece.may_turn and piece.width != piece.length else (False,)
    return tuple(turned for turned in ways if _sides(piece, turned=turned)[0] <= most)


def _preferred(piece: Rectangle, width: float, *, long: bool) -> bool:
    ways = _turns(piece, width)
    return (max if long else min)(ways, key=lambda turned: _sides(piece, turned=turned)[1])


def _shortest(piece: Rectangle, width: float) -> float:
    return min(_sides(piece, turned=turned)[1] for turned in _turns(piece, width))


def _sides(piece: Rectangle, *, turned: bool) -> tuple[float, float]:
    return (piece.length, piece.width) if turned else (piece.width, piece.length)


def _lay(rectangles: Sequence[Rectangle], order: Order, width: float) -> Laid:
    """Put pieces down in an order, each as near to the cut end and the selvedge as it goes."""
    laid: list[LaidPiece] = []
    for number, turned in order:
        piece = rectangles[number]
        wide, long = _sides(piece, turned=turned)
        x, y = _first_free(laid, wide, long, width)
        laid.append(LaidPiece(what=piece.what, x=x, y=y, width=wide, length=long))
    return Laid(pieces=tuple(laid), length=max(one.y + one.length for one in laid))


def _first_free(
    laid: Sequence[LaidPiece], wide: float, long: float, width: float
) -> tuple[float, float]:
    across = sorted({0.0, *(one.x + one.width for one in laid)})
    along = sorted({0.0, *(one.y + one.length for one in laid)})
    for y in along:
        near = [
            one
            for one in laid
            if one.y < y + long - SAME_POINT_MM and y < one.y + one.length - SAME_POINT_MM
        ]
        for x in across:
            if width + SAME_POINT_MM < x + wide:
                break
            if not any(
                one.x < x + wide - SAME_POINT_MM and x < one.x + one.width - SAME_POINT_MM
                for one in near
            ):
                return x, y
    raise ValueError("a piece is wider than the cloth")
