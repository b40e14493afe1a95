"""Orders the lines of a hooping: anchors first, then the nearest end, kind by kind.

Method: nearest neighbour over the free ends, from where the needle is. It gives no least number
of cuts and no shortest way; it keeps neighbours together and never sews an edge before what it
closes in.
"""

from dataclasses import replace

import numpy as np

from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.line import Line, LineKind
from stitchpath.model.stitches import Run

UNCUT_TRAVEL_MM = 6.0
"""Longer travel cuts the thread: a longer float of thread on a quilt snags, and nothing covers
it. Common practice (5 to 8 mm), no source."""

_KIND_ORDER = {kind: rank for rank, kind in enumerate(LineKind)}


def order_runs(lines: tuple[Line, ...]) -> tuple[Run, ...]:
    """Return the runs of one hooping in the order of sewing; each line is in one of them.

    Anchor lines come first and in the order given, then the other lines kind by kind: quilting,
    mouth, edge, seam. Within these the next line is the one with the nearest end; lines are
    turned round where that end is their last.
    """
    ordered: list[Line] = []
    anchors = [line for line in lines if line.anchor]
    for line in anchors:
        ordered.append(_towards(line, ordered))
    for kind in sorted({line.kind for line in lines}, key=_KIND_ORDER.__getitem__):
        rest = [line for line in lines if line.kind is kind and not line.anchor]
        ordered += _nearest_first(rest, ordered)
    return _cut(ordered)


def _towards(line: Line, sewn: list[Line]) -> Line:
    """Return the line beginning at the end that is nearer to where the needle is."""
    if not sewn:
        return line
    needle = sewn[-1].points[-1]
    away = np.hypot(*(line.points[[0, -1]] - needle).T)
    return _reversed(line) if away[1] < away[0] - SAME_POINT_MM else line


def _nearest_first(lines: list[Line], sewn: list[Line]) -> list[Line]:
    if not lines:
        return []
    ends = np.array([line.points[[0, -1]] for line in lines])
    needle = sewn[-1].points[-1] if sewn else ends[0, 0]
    ordered: list[Line] = []
    for _ in lines:
        away = np.hypot(ends[..., 0] - needle[0], ends[..., 1] - needle[1])
        nearest = int(np.argmin(np.round(away / SAME_POINT_MM)))
        index, end = divmod(nearest, 2)
        ordered.append(_reversed(lines[index]) if end else lines[index])
        needle = ends[index, 1 - end].copy()
        ends[index] = np.inf
    return ordered


def _reversed(line: Line) -> Line:
    last = len(line.points) - 1
    whole = tuple((last - end, last - start) for start, end in reversed(line.whole))
    return replace(line, points=line.points[::-1], whole=whole)


def _cut(lines: list[Line]) -> tuple[Run, ...]:
    """Part the ordered lines wherever the way to the next is too long to leave a float."""
    runs: list[list[Line]] = []
    for line in lines:
        travel = np.hypot(*(line.points[0] - runs[-1][-1].points[-1])) if runs else np.inf
        if travel <= UNCUT_TRAVEL_MM:
            runs[-1].append(line)
        else:
            runs.append([line])
    return tuple(Run(lines=tuple(run)) for run in runs)
