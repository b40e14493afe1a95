"""Placement marks: crosses on a piece that its hoopings are lined up with.

A hooping gets two of them at far corners, because the error of its angle falls with their
distance; neighbours share one where their fields overlap, so that a join hangs on the same ink.
Marks lie on round measures from the piece's left and top edge, so that a ruler finds them.

    window      where a hooping's marks may lie: in its field and on the piece, well inside both
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import combinations
from typing import Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.hooping import Hooping, Mark
from stitchpath.model.piece import Piece
from stitchpath.units import MM_PER, Unit

INSET_MM: Final = 5.0
"""How far marks stay inside field and piece: a hoop that lies off by so much still brings the
needle to them. Common practice (work within 1 to 3 mm), with some room; no source."""
MOST_MARKS: Final = 4
"""Of one hooping; more are no help to someone who lowers a needle on each."""
_ROUND_ROOM_MM: Final = 10.0
"""How far a mark moves inwards from its corner to come to a round measure."""
_NEAR_SHARE: Final = 0.15
"""A mark so near to a corner, in shorter sides of the window, does for that corner."""
_NEW_COST: Final = 0.1
"""A mark that is there already is worth so much of the window's diagonal."""
_ROUND: Final[dict[Unit, tuple[float, ...]]] = {
    "mm": (10.0, 5.0, 1.0),
    "cm": (10.0, 5.0, 1.0),
    "in": tuple(MM_PER["in"] / parts for parts in (2, 4, 8, 16)),
}
"""Steps of round measures, the roundest first, mm."""

Place: TypeAlias = tuple[float, float]
_Window: TypeAlias = NDArray[np.float64]
"""Lowest and highest x and y, shape (2, 2), mm on the piece."""


def mark_hoopings(
    hoopings: Sequence[Hooping], piece: Piece, *, unit: Unit, known: Iterable[Mark] = ()
) -> tuple[Hooping, ...]:
    """Return a stage's hoopings with their placement marks.

    Each has two marks near far corners of its window, then up to two more that other hoopings
    brought there. One name is one place on the piece.

    Args:
        hoopings: In the order of sewing, turned by quarter turns.
        piece: What they lie on.
        unit: What round measures are round in.
        known: Marks that the piece has already, from an earlier stage.

    Cost: O(n^2) in the number of hoopings, in arrays.  Source: far corners and shared marks,
    docs/placing.md.
    """
    windows = np.array([_window(hooping, piece) for hooping in hoopings]).reshape(-1, 2, 2)
    places = {mark.name: mark.piece for mark in known}
    pairs = []
    for number in range(len(hoopings)):
        pair = _best_pair(windows, number, places, unit)
        pairs.append([_named(place, places) for place in pair])
    return tuple(
        _marked(hooping, _with_more(pair, window, places), places)
        for hooping, window, pair in zip(hoopings, windows, pairs, strict=True)
    )


def place_marks(hooping: Hooping, piece: Piece) -> tuple[Mark, ...]:
    """Return the marks of a hooping without neighbours, on measures that are round in mm."""
    (marked,) = mark_hoopings([hooping], piece, unit="mm")
    return marked.marks


def _window(hooping: Hooping, piece: Piece) -> _Window:
    corners = hooping.corners
    low = np.maximum(corners.min(axis=0), 0.0)
    high = np.minimum(corners.max(axis=0), [piece.width, piece.length])
    inset = np.clip((high - low) / 4, 0.0, INSET_MM)
    return np.array([low + inset, high - inset])


def _best_pair(
    windows: NDArray[np.float64], number: int, places: dict[str, Place], unit: Unit
) -> tuple[Place, Place]:
    """Return the two places that are farthest apart, those with marks already preferred."""
    window = windows[number]
    cost = _NEW_COST * float(np.hypot(*(window[1] - window[0])))
    marks = _inside(window, places)
    top_left, top_right, bottom_left, bottom_right = (
        _at_corner(windows, number, corner, marks, unit)
        for corner in ((0, 0), (1, 0), (0, 1), (1, 1))
    )
    known = set(marks)

    def worth(pair: tuple[Place, Place]) -> float:
        return _apart(*pair) - cost * len(set(pair) - known)

    pairs = ((top_left, bottom_right), (bottom_left, top_right))
    best = max(pairs, key=worth)
    if _apart(*best) <= SAME_POINT_MM:  # all corners have come to one mark
        best = max(combinations([*known, *window.tolist()], 2), key=lambda two: _apart(*two))
        return tuple(best[0]), tuple(best[1])  # type: ignore[return-value]  # places are pairs
    return best


def _at_corner(
    windows: NDArray[np.float64],
    number: int,
    corner: tuple[int, int],
    marks: list[Place],
    unit: Unit,
) -> Place:
    """Return the place of a mark near a corner: one that is there, or a new one."""
    window = windows[number]
    at = window[list(corner), [0, 1]]
    near = _NEAR_SHARE * float((window[1] - window[0]).min())
    closest = min(marks, key=lambda mark: _apart(mark, at), default=None)
    if closest is not None and _apart(closest, at) <= near:
        return closest
    shared = _shared(windows, number, at, near)
    if shared is None:
        inwards = np.sign(window.mean(axis=0) - at) * _ROUND_ROOM_MM
        room = np.clip(np.sort([at, at + inwards], axis=0), window[0], window[1])
        return _rounded(room, at, unit)
    return _rounded(shared, shared.mean(axis=0), unit)


def _shared(
    windows: NDArray[np.float64], number: int, at: NDArray[np.float64], near: float
) -> _Window | None:
    """Return what a window has near a corner in common with as many others as possible."""
    own = windows[number]
    low, high = np.maximum(windows[:, 0], own[0]), np.minimum(windows[:, 1], own[1])
    away = np.hypot(*(np.clip(at, low, high) - at).T)
    meets = np.all(low <= high, axis=1) & (away <= near)
    meets[number] = False
    common, found = own, False
    for other in sorted(np.flatnonzero(meets).tolist(), key=lambda one: (away[one], one)):
        both = np.array([np.maximum(common[0], low[other]), np.minimum(common[1], high[other])])
        if np.all(both[0] <= both[1]) and _apart(np.clip(at, *both), at) <= near:
            common, found = both, True
    if not found:
        return None
    return np.array([np.maximum(common[0], at - near), np.minimum(common[1], at + near)])


def _rounded(room: _Window, wish: NDArray[np.float64], unit: Unit) -> Place:
    """Return the place nearest to the wish that is as round as the room allows, each way."""
    x, y = (
        _round_measure(float(room[0, axis]), float(room[1, axis]), float(wish[axis]), unit)
        for axis in (0, 1)
    )
    return x, y


def _round_measure(low: float, high: float, wish: float, unit: Unit) -> float:
    for step in _ROUND[unit]:
        first, last = np.ceil(low / step - SAME_POINT_MM), np.floor(high / step + SAME_POINT_MM)
        if first <= last:
            return float(np.clip(np.rint(wish / step), first, last) * step)
    return wish


def _named(place: Place, places: dict[str, Place]) -> str:
    """Return the name of a mark; a new place gets the next one."""
    for name, known in places.items():
        if _apart(known, place) <= SAME_POINT_MM:
            return name
    number = next(n for n in range(len(places) + 1) if _letters(n) not in places)
    places[_letters(number)] = place
    return _letters(number)


def _letters(number: int) -> str:
    """Return A, B, ... Z, AA, AB, ...: the name of a mark by its number from 0."""
    before, last = divmod(number, 26)
    return (_letters(before - 1) if before else "") + chr(ord("A") + last)


def _inside(window: _Window, places: dict[str, Place]) -> list[Place]:
    left, top = (window[0] - SAME_POINT_MM).tolist()
    right, bottom = (window[1] + SAME_POINT_MM).tolist()
    return [(x, y) for x, y in places.values() if left <= x <= right and top <= y <= bottom]


def _with_more(pair: list[str], window: _Window, places: dict[str, Place]) -> list[str]:
    """Return a pair and the other marks in the window, the farthest from both first."""
    inside = set(_inside(window, places))
    others = [name for name, at in places.items() if at in inside and name not in pair]
    others.sort(key=lambda one: -min(_apart(places[one], places[name]) for name in pair))
    return pair + others[: MOST_MARKS - len(pair)]


def _marked(hooping: Hooping, names: list[str], places: dict[str, Place]) -> Hooping:
    seen = hooping.to_field(np.array([places[name] for name in names])).tolist()
    marks = (
        Mark(name=name, piece=places[name], field=(x, y))
        for name, (x, y) in zip(names, seen, strict=True)
    )
    return replace(hooping, marks=tuple(marks))


def _apart(one: Place | NDArray[np.float64], other: Place | NDArray[np.float64]) -> float:
    return float(np.hypot(one[0] - other[0], one[1] - other[1]))
