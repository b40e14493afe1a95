"""Designs made short: stitch files as a project sees them, without a file."""

from collections.abc import Sequence

import numpy as np

from stitchpath.machine.measure import sewn_part, sewn_rows
from stitchpath.machine.rows import FileStitches
from stitchpath.model.design import DesignFile
from stitchpath.model.stitches import Op

Step = tuple[int, int] | str
"""A needle point in tenths of a mm; `cut`, `stop` or `colour`; or `jump` before a point."""

ZIGZAG: tuple[Step, ...] = ((0, 0), (25, 10), (50, 0), (75, 10), (100, 0))


def stitched(
    *steps: Step,
    source: str = "heron.exp",
    colours: Sequence[str] = (),
    said: Sequence[str] = (),
) -> DesignFile:
    """Return a design of some steps; of a zigzag of 10 mm where none are told."""
    read = file_stitches(*(steps or ZIGZAG), colours=colours)
    return DesignFile(
        source=source,
        stitches=sewn_part(read),
        stops=np.flatnonzero(np.isin(sewn_rows(read), read.stops)),
        colours=tuple(colours),
        said=tuple(said),
    )


def file_stitches(*steps: Step, colours: Sequence[str] = ()) -> FileStitches:
    """Return what a file with some steps says."""
    xy: list[tuple[int, int]] = []
    op: list[Op] = []
    stops: list[int] = []
    jumps = False
    for step in steps:
        if isinstance(step, tuple):
            if jumps:
                xy.append(step)
                op.append(Op.JUMP)
            xy.append(step)
            op.append(Op.STITCH)
            jumps = False
        elif step == "jump":
            jumps = True
        else:
            if step == "stop":
                stops.append(len(xy))
            xy.append(xy[-1])
            op.append(Op.CUT if step == "cut" else Op.PAUSE)
            jumps = jumps or step == "cut"
    return FileStitches(
        xy_units=np.array(xy, dtype=np.int64),
        op=np.array(op, dtype=np.uint8),
        stops=np.array(stops, dtype=np.intp),
        colours=tuple(colours),
    )
