"""Lines from stitch files made short."""

from collections.abc import Collection

import numpy as np
from numpy.typing import ArrayLike

from stitchpath.model.line import FileRun, Line, LineKind


def file_line(
    points: ArrayLike,
    *,
    moved: Collection[int] = (),
    paused: Collection[int] = (),
    thread: int = 0,
    scale: float = 1.0,
    stitch_mm: float = 3.0,
) -> Line:
    """Return a line from a stitch file; moves and stops are told by their needle points."""
    xy = np.array(points, dtype=np.float64)
    rows = np.arange(len(xy))
    file_run = FileRun(
        design=0,
        run=0,
        thread=thread,
        moved=np.isin(rows, list(moved)),
        paused=np.isin(rows, list(paused)),
        scale=scale,
    )
    return Line(
        points=xy, kind=LineKind.QUILTING, stitch_mm=stitch_mm, motif=0, file_run=file_run
    )
