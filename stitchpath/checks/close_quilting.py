"""Is the quilting so close that the quilt becomes stiff?

Measure: the needle points of all stages of a piece, each worth the stitch before it, summed in
squares of 50 mm; a square's area over the length sewn in it is the distance between lines that
would be sewn in one direction. Lines that cross count in both directions: a crosshatch of
spacing s measures s / 2. Closer than about 6 mm, a quarter of an inch, is stippling, which
condenses what it fills (see docs/sources.md); that it stiffens is often said, and disputed.

Limits: `checks.closest`, 6 mm. A wide square hides a very small dense spot, on which the check
of needle crowding has its eye. Whether to want it stiff is the maker's choice, so it is a note.
"""

from collections.abc import Iterator
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.checks._pieces import Stages, stages_by_piece
from stitchpath.geometry.points import Points, extremes, parts_of
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan
from stitchpath.units import format_length

CODE = "close-quilting"
SQUARE_MM: Final = 50.0


def check(plan: Plan) -> Iterator[Finding]:
    """Point at the square of each piece that is quilted most closely, if it is too closely."""
    limit, unit = plan.project.checks.closest, plan.project.units
    for name, stages in stages_by_piece(plan):
        xy, lengths = _stitches(stages)
        if not len(xy):
            continue
        apart, where = closest_square(xy, lengths)
        if apart < limit:
            yield Finding(
                code=CODE,
                level=Level.NOTE,
                text=f"the closest quilting on the {name} is as lines "
                f"{format_length(apart, unit)} apart, closer than "
                f"{format_length(limit, unit)}: it may be stiff there, and draws up",
                help="set its lines further apart, unless it is to be stiff",
                stage=stages[0].name,
                where=where,
                value=apart,
                limit=limit,
            )


def closest_square(
    xy: Points, lengths: NDArray[np.float64]
) -> tuple[float, tuple[float, float]]:
    """Return how far apart lines are in the densest square, mm, and that square's middle.

    Args:
        xy: Where each stitch ends, shape (n, 2), mm; n >= 1.
        lengths: The stitches, shape (n,), mm, > 0.
    """
    first, last = (np.floor(edge / SQUARE_MM) for edge in extremes(xy))
    columns, rows = (last - first).astype(np.int64).tolist()
    columns += 1
    sewn = np.zeros(columns * (rows + 1))
    for part in parts_of(len(xy)):
        column, row = (np.floor(xy[part] / SQUARE_MM) - first).astype(np.int64).T
        np.add.at(sewn, row * columns + column, lengths[part])
    densest = int(np.argmax(sewn))
    corner = first + np.array(divmod(densest, columns))[::-1]
    x, y = ((corner + 0.5) * SQUARE_MM).tolist()
    return float(SQUARE_MM**2 / sewn[densest]), (x, y)


def _stitches(stages: Stages) -> tuple[Points, NDArray[np.float64]]:
    sewn = [one.stitches for stage in stages for one in stage.hoopings]
    ends, lengths = [np.empty((0, 2))], [np.empty(0)]
    for stitches in sewn:
        for rows in stitches.parts_of_stitch_rows():
            end = stitches.xy.take(rows[:, 1], axis=0)
            length = np.hypot(*(end - stitches.xy.take(rows[:, 0], axis=0)).T)
            long = length > SAME_POINT_MM
            ends.append(np.compress(long, end, axis=0))
            lengths.append(length[long])
    return np.concatenate(ends), np.concatenate(lengths)
