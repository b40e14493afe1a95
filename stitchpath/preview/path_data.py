"""Arrays to SVG path data, quickly.

Positions are rounded to whole steps of a grid and then written as differences, so nothing
drifts: a point read back lies within half a step of where it was, however long the path. A
relative `m` with many pairs draws lines (SVG 1.1 second edition, 8.3.2: the pairs after the
first are implicit linetos, and a leading `m` is absolute), so `m` is the only command needed.
"""

from functools import cache
from typing import Any, Final, TypeAlias

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, parts_of
from stitchpath.preview.polylines import Polylines

_SPACE: Final = ord(" ")
_MOVE: Final = ord("m")
_FEW: Final = 250  # points that are written faster by one format of all of them
_SHORT: Final = 4
_LONG: Final = 8
"""Letters of a word: of most steps of stitches, and of all others that a quilt has."""
_IN_TABLE: Final = {_SHORT: (-99, 999), _LONG: (-9_999, 9_999)}
"""Numbers that are looked up; a table of more would take longer than it saves."""
_Words: TypeAlias = NDArray[np.unsignedinteger[Any]]
"""Numbers with a space before them, as ASCII filled up with 0: four letters, or eight."""


def lines_data(lines: Polylines, *, per_mm: int, closed: bool = False) -> str:
    """Return path data that draws polylines.

    Args:
        lines: What to draw; a polyline of one point draws nothing.
        per_mm: Steps of the grid in a millimetre; scale the path by 1 / `per_mm`.
        closed: Close each of them.

    Cost: O(n), above five million points a second; little more memory than the text.

    Example:
        >>> square = Polylines(points=[[0, 0], [1, 0], [1, 1], [-2, 1.5]], starts=[0, 3])
        >>> lines_data(square, per_mm=10)
        'm0 0 10 0 0 10m-30 5'
    """
    if len(lines.points) < _FEW:
        ending = "z" if closed else ""
        return _at_once(_on_grid(lines.points, per_mm), lines.starts, ending)
    ends = np.append(lines.starts[1:], len(lines.points)) - 1
    parts = []
    for part in parts_of(len(lines.points)):
        steps, moves = _steps(lines.points, part, per_mm), _rows_of(lines.starts, part)
        if closed:
            _begin_at_home(steps, lines, part, per_mm)
            parts.append(_written(steps, moves, _rows_of(ends, part), "z"))
        else:
            parts.append(_written(steps, moves, moves[:0], ""))
    return "".join(parts)


def dots_data(places: Points, *, per_mm: int) -> str:
    """Return path data with a line of no length at each place: a dot under round caps.

    Source: SVG 1.1 second edition, 11.4, `stroke-linecap`: a subpath of no length is drawn
    where the cap is round; the W3C's test of it is painting-stroke-10-t.

    Example:
        >>> dots_data(np.array([[1.0, 2.0], [0.5, 2.0]]), per_mm=10)
        'm10 20h0m-5 0h0'
    """
    if len(places) < _FEW:
        return _at_once(_on_grid(places, per_mm), np.arange(len(places)), "h0")
    parts = []
    for part in parts_of(len(places)):
        steps = _steps(places, part, per_mm)
        rows = np.arange(len(steps))
        parts.append(_written(steps, rows, rows, "h0"))
    return "".join(parts)


def _at_once(cells: NDArray[np.int64], starts: NDArray[np.intp], ending: str) -> str:
    """Return data of few points, each of its lines with an ending; `z` goes back to a start."""
    if not len(cells):
        return ""
    steps, later = cells.copy(), starts[1:]
    steps[1:] -= cells[:-1]
    if ending == "z":
        steps[later] = cells[later] - cells[starts[:-1]]
    moves = [" %d %d"] * len(steps)
    for start in later.tolist():
        moves[start] = f"{ending}m%d %d"
    moves[0] = "m%d %d"
    return "".join(moves) % tuple(steps.ravel().tolist()) + ending


def _steps(points: Points, part: slice, per_mm: int) -> NDArray[np.int64]:
    """Return the step to each of some points, from the one before them or from 0, 0."""
    cells = _on_grid(points[max(part.start - 1, 0) : part.stop], per_mm)
    steps: NDArray[np.int64] = np.diff(cells, axis=0)
    return steps if part.start else np.concatenate([cells[:1], steps])


def _begin_at_home(
    steps: NDArray[np.int64], lines: Polylines, part: slice, per_mm: int
) -> None:
    """Put in the steps to closed polylines: closing goes back to where the last one began."""
    begins, homes = lines.starts[1:], lines.starts[:-1]
    some = _those_in(begins, part)
    places = _on_grid(lines.points[begins[some]], per_mm)
    steps[begins[some] - part.start] = places - _on_grid(lines.points[homes[some]], per_mm)


def _rows_of(rows: NDArray[np.intp], part: slice) -> NDArray[np.intp]:
    """Return which rows of a part are among some ascending rows of all."""
    first: int = part.start
    return rows[_those_in(rows, part)] - first


def _those_in(rows: NDArray[np.intp], part: slice) -> slice:
    return slice(*np.searchsorted(rows, [part.start, part.stop]).tolist())


def _on_grid(points: Points, per_mm: int) -> NDArray[np.int64]:
    return np.rint(points * per_mm).astype(np.int64)


def _written(
    steps: NDArray[np.int64], moves: NDArray[np.intp], ends: NDArray[np.intp], ending: str
) -> str:
    """Write each step after a space, some after `m` in place of it, some with an ending."""
    longest = max(len(str(int(end))) for end in (steps.min(), steps.max()))
    size = _SHORT if longest < _SHORT else _LONG  # with a space
    if longest >= _LONG:
        return _one_by_one(steps, set(moves.tolist()), set(ends.tolist()), ending)
    words = _words(steps, size)
    if ending:
        words = np.column_stack([words, np.zeros(len(words), dtype=words.dtype)])
    letters = words.view(np.uint8)
    letters[moves, 0] = _MOVE
    for nth, letter in enumerate(ending.encode()):
        letters[ends, 2 * size + nth] = letter
    return words.tobytes().translate(None, b"\0").decode("ascii")


def _one_by_one(steps: NDArray[np.int64], moves: set[int], ends: set[int], ending: str) -> str:
    """Write the same where steps are longer than any quilt has them."""
    return "".join(
        f"{'m' if row in moves else ' '}{x} {y}{ending if row in ends else ''}"
        for row, (x, y) in enumerate(steps.tolist())
    )


def _words(numbers: NDArray[np.int64], size: int) -> _Words:
    """Return numbers, none too long for it, as words of so many letters, in the same shape."""
    least, most = _IN_TABLE[size]
    far = (numbers < least) | (most < numbers)
    if not far.any():
        return np.asarray(_table(size)[numbers - least])
    words = np.asarray(_table(size)[numbers.clip(least, most) - least])
    words[far] = _as_words(numbers[far], size)
    return words


@cache
def _table(size: int) -> _Words:
    least, most = _IN_TABLE[size]
    return _as_words(np.arange(least, most + 1), size)


def _as_words(numbers: NDArray[np.int64], size: int) -> _Words:
    """Return numbers, shape (n,), as words; one by one, so not for many."""
    text = np.ascontiguousarray(numbers.astype(np.bytes_))
    letters = text.view(np.uint8).reshape(len(numbers), -1)[:, : size - 1]
    words = np.zeros((len(numbers), size), dtype=np.uint8)
    words[:, 0] = _SPACE
    words[:, 1 : 1 + letters.shape[1]] = letters
    return words.view(np.uint32)[:, 0] if size == _SHORT else words.view(np.uint64)[:, 0]
