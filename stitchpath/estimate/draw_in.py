"""How much quilting draws a piece together.

Formula. The share lost is read off measured samples by the density of the lines, straight
between them. A grid of spacing s has 2 / s of line to the area, so any lines of length l on an
area A are taken for the grid of spacing 2 A / l.

Source: cotton samples of 20 x 9 in, measured after quilting and binding, grids of 4, 2 and
1 1/2 in; of both directions the one that lost more (docs/sources.md, cloth and cutting).

Limits: three samples of one maker; closer than measured the line goes on, up to the 3.6 % that
whole quilts lost at the most. Along and across are taken to be drawn in alike.
"""

from typing import Final

import numpy as np

from stitchpath.geometry.points import path_length
from stitchpath.model.line import LineKind
from stitchpath.model.plan import Stage

_INCH: Final = 25.4
SAMPLES: Final = (
    (4 * _INCH, 0.125 / 20),
    (2 * _INCH, 0.125 / 9),
    (1.5 * _INCH, 0.25 / 9),
)
"""Spacing of the grid, and the share lost: at 4 in 1/8 of 20 in, then 1/8 and 1/4 of 9 in."""
MOST: Final = 0.036
"""What a whole quilt lost at the most: 3 of 83 in."""


def draw_in(spacing_mm: float) -> float:
    """Return the share of width and length that quilting of a density takes off.

    Args:
        spacing_mm: Of the grid that has as much line to the area, > 0; infinite for none.

    Example:
        >>> [round(draw_in(inches * 25.4), 4) for inches in (8, 4, 2, 1.5, 0.5)]
        [0.0031, 0.0063, 0.0139, 0.0278, 0.036]
    """
    density = 1 / spacing_mm
    known = [0.0, *(1 / spacing for spacing, _ in SAMPLES)]
    lost = [0.0, *(share for _, share in SAMPLES)]
    slope = (lost[-1] - lost[-2]) / (known[-1] - known[-2])
    beyond = lost[-1] + slope * max(0.0, density - known[-1])
    return min(MOST, beyond if density > known[-1] else float(np.interp(density, known, lost)))


def stage_draw_in(stage: Stage) -> float:
    """Return the share that a stage's quilting lines take off its piece."""
    length = sum(
        path_length(line.points) for line in stage.lines if line.kind is LineKind.QUILTING
    )
    area = stage.piece.width * stage.piece.length
    return draw_in(2 * area / length) if length else 0.0
