"""Arrays to SVG path data, quickly.

Positions are rounded to whole steps of a grid and then written as differences, so nothing
drifts: a point read back lies within half a step of where it was, however long the path. A
relative `m` with many pairs draws lines (SVG 1.1 second edition, 8.3.2: the pairs after the
first are implicit linetos, and a leading `m` is absolute), so `m` is the only command needed.
"""

from functools import cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points, parts_of
from stitchpath.preview.polylines import Polylines

_SPACE: Final = ord(" ")
_MOVE: Final = ord("m")
_CLOSE: Final = ord("z")
_FEW: Final = 250  # points that are written faster by one format of all of them
_MOST_DIGITS: Final = 4  # a table of longer numbers would take more than it saves
_SHORT: Final = 10**_MOST_DIGITS


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
        steps = _steps(lines.points, part, per_mm)
        before = np.full(len(steps), _SPACE, dtype=np.uint8)
        before[_rows_of(lines.starts, part)] = _MOVE
        after = np.zeros((len(steps), 1), dtype=np.uint8)
        if closed:
            after[_rows_of(ends, part)] = _CLOSE
            _begin_at_home(steps, lines, part, per_mm)
        parts.append(_written(steps, before, after))
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
        after = np.tile(np.frombuffer(b"h0", dtype=np.uint8), (len(steps), 1))
        parts.append(_written(steps, np.full(len(steps), _MOVE, dtype=np.uint8), after))
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
    steps: NDArray[np.int64], before: NDArray[np.uint8], after: NDArray[np.uint8]
) -> str:
    """Write rows of `before x y after` and leave out the bytes that are 0."""
    x, y = _digits(steps[:, 0]), _digits(steps[:, 1])
    blank = 1 + x.shape[1]
    end = blank + 1 + y.shape[1]
    cells = np.empty((len(steps), end + after.shape[1]), dtype=np.uint8)
    cells[:, 0], cells[:, 1:blank] = before, x
    cells[:, blank], cells[:, blank + 1 : end] = _SPACE, y
    cells[:, end:] = after
    return cells.tobytes().translate(None, b"\0").decode("ascii")


def _digits(numbers: NDArray[np.int64]) -> NDArray[np.uint8]:
    """Return numbers as rows of ASCII, filled up with 0."""
    low, high = int(numbers.min()), int(numbers.max())
    if low > -_SHORT and high < _SHORT:
        return _table(max(len(str(low)), len(str(high))))[numbers + _SHORT]
    far = np.flatnonzero((numbers >= _SHORT) | (numbers <= -_SHORT))
    text = _ascii(numbers[far])
    rows = np.zeros((len(numbers), max(_MOST_DIGITS + 1, text.shape[1])), dtype=np.uint8)
    near = numbers.clip(1 - _SHORT, _SHORT - 1)
    rows[:, : _MOST_DIGITS + 1] = _table(_MOST_DIGITS + 1)[near + _SHORT]
    rows[far, : text.shape[1]] = text
    return rows


@cache
def _table(width: int) -> NDArray[np.uint8]:
    """Return rows of ASCII for numbers from `-_SHORT` on, those that have the width."""
    return np.ascontiguousarray(_ascii(np.arange(-_SHORT, _SHORT))[:, :width])


def _ascii(numbers: NDArray[np.int64]) -> NDArray[np.uint8]:
    """Return numbers as rows of ASCII, filled up with 0; one by one, so not for many."""
    text = np.ascontiguousarray(numbers.astype(np.bytes_))
    return text.view(np.uint8).reshape(len(numbers), -1)
