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

from stitchpath.geometry.points import Points
from stitchpath.preview.polylines import Polylines

_SPACE: Final = ord(" ")
_MOVE: Final = ord("m")
_FEW: Final = 64  # rows that are written faster one by one
_MOST_DIGITS: Final = 4  # a table of longer numbers would take more than it saves
_SHORT: Final = 10**_MOST_DIGITS


def lines_data(lines: Polylines, *, per_mm: int, closed: bool = False) -> str:
    """Return path data that draws polylines.

    Args:
        lines: What to draw; a polyline of one point draws nothing.
        per_mm: Steps of the grid in a millimetre; scale the path by 1 / `per_mm`.
        closed: Close each of them.

    Cost: O(n), above five million points a second.

    Example:
        >>> square = Polylines(points=[[0, 0], [1, 0], [1, 1], [-2, 1.5]], starts=[0, 3])
        >>> lines_data(square, per_mm=10)
        'm0 0 10 0 0 10m-30 5'
    """
    if not len(lines):
        return ""
    cells = _on_grid(lines.points, per_mm)
    steps = _steps(cells)
    begins = np.zeros(len(cells), dtype=np.bool_)
    begins[lines.starts] = True
    if closed:  # closing goes back to where a polyline began; the next move starts from there
        steps[lines.starts[1:]] = np.diff(cells[lines.starts], axis=0)
    ends = np.append(begins[1:], np.True_) if closed else np.zeros_like(begins)
    after = np.where(ends, ord("z"), 0)[:, None]
    return _written(steps, np.where(begins, _MOVE, _SPACE), after)


def dots_data(places: Points, *, per_mm: int) -> str:
    """Return path data with a line of no length at each place: a dot under round caps.

    Source: SVG 1.1 second edition, 11.4, `stroke-linecap`: a subpath of no length is drawn
    where the cap is round; the W3C's test of it is painting-stroke-10-t.

    Example:
        >>> dots_data(np.array([[1.0, 2.0], [0.5, 2.0]]), per_mm=10)
        'm10 20h0m-5 0h0'
    """
    steps = _steps(_on_grid(places, per_mm))
    after = np.tile(np.frombuffer(b"h0", dtype=np.uint8), (len(steps), 1))
    return _written(steps, np.full(len(steps), _MOVE), after)


def _on_grid(points: Points, per_mm: int) -> NDArray[np.int64]:
    return np.rint(points * per_mm).astype(np.int64)


def _steps(cells: NDArray[np.int64]) -> NDArray[np.int64]:
    """Return the step to each place, the first from 0, 0."""
    steps = cells.copy()
    steps[1:] -= cells[:-1]
    return steps


def _written(
    steps: NDArray[np.int64], before: NDArray[np.integer], after: NDArray[np.integer]
) -> str:
    """Write rows of `before x y after` and leave out the bytes that are 0."""
    if len(steps) < _FEW:
        rows = zip(before.tolist(), steps.tolist(), after.tolist(), strict=True)
        texts = (chr(mark) + f"{x} {y}" + "".join(map(chr, end)) for mark, (x, y), end in rows)
        return "".join(texts).replace("\0", "")
    x, y = _digits(steps[:, 0]), _digits(steps[:, 1])
    columns = (before[:, None], x, np.full((len(steps), 1), _SPACE), y, after)
    cells = np.hstack(columns, dtype=np.uint8, casting="unsafe")
    return cells.tobytes().translate(None, b"\0").decode("ascii")


def _digits(numbers: NDArray[np.int64]) -> NDArray[np.uint8]:
    """Return numbers as rows of ASCII, filled up with 0."""
    far = np.flatnonzero((numbers >= _SHORT) | (numbers <= -_SHORT))
    if not len(far):
        low, high = int(numbers.min()), int(numbers.max())
        return _table(max(len(str(low)), len(str(high))))[numbers + _SHORT]
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
