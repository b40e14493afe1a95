"""Where the runs of stitch files come in: right after the anchors, further threads at the end.

A design is sewn in its file's own order. Designs are quilted before the lines round them, so
that nothing is closed in when its turn comes; of several copies that nearest to the piece's
middle comes first (common practice, no source). What takes another thread than the stage's is
sewn last in a hooping, one thread after another for all copies, so that threads are changed as
seldom as can be.
"""

from collections import defaultdict
from math import dist

import numpy as np

from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.line import Line, run_of
from stitchpath.model.stitches import Run


def with_designs(
    runs: tuple[Run, ...], lines: tuple[Line, ...], middle: tuple[float, float]
) -> tuple[Run, ...]:
    """Return runs of other lines with those of designs among them.

    Args:
        runs: Of a hooping's other lines, in the order of sewing.
        lines: From stitch files, those of a copy in the file's order; may be none.
        middle: Of the piece.
    """
    anchors = [at for at, run in enumerate(runs) if any(line.anchor for line in run.lines)]
    first = anchors[-1] + 1 if anchors else 0
    away = _away(lines, middle)
    ordered = sorted(lines, key=lambda line: (run_of(line).thread, away[line.motif]))
    own = [Run(lines=(line,)) for line in ordered if run_of(line).thread == 0]
    late = [Run(lines=(line,)) for line in ordered if run_of(line).thread > 0]
    return (*runs[:first], *own, *runs[first:], *late)


def _away(
    lines: tuple[Line, ...], middle: tuple[float, float]
) -> dict[int | None, tuple[int, int]]:
    """Return for each copy how far it lies from the middle, and its number."""
    corners: dict[int | None, list[np.ndarray]] = defaultdict(list)
    for line in lines:
        corners[line.motif] += [line.points.min(axis=0), line.points.max(axis=0)]
    away: dict[int | None, tuple[int, int]] = {}
    for copy, ends in corners.items():
        low, high = np.min(ends, axis=0), np.max(ends, axis=0)
        place = ((low + high) / 2).tolist()
        away[copy] = (round(dist(place, middle) / SAME_POINT_MM), copy or 0)
    return away
