"""The seam that sews the pocket on: three sides, and a triangle at both mouth corners."""

import numpy as np
import shapely

from stitchpath.model.line import Line, LineKind
from stitchpath.model.quilt import Pocket
from stitchpath.pieces.corner import Hand, corner_path


def mouth_opening(pocket: Pocket, left: float, top: float) -> shapely.LineString:
    """Return the line across the mouth that stays open, between the two triangles.

    Args:
        pocket: The pocket and its seam.
        left: Where its finished left edge lies on the quilt, mm.
        top: Where its mouth lies, mm.
    """
    seam = pocket.seam
    inset = seam.inset + seam.corner_across
    y = top + seam.inset
    return shapely.LineString([(left + inset, y), (left + pocket.width - inset, y)])


def seam_lines(pocket: Pocket, left: float, top: float) -> tuple[Line, ...]:
    """Return the lines that sew a pocket on.

    Args:
        pocket: The pocket and its seam.
        left: Where its finished left edge lies on the quilt, mm.
        top: Where its mouth lies, mm.

    Returns:
        One line down the left side, along the foot and up the right side, with a triangle at
        either end; or the two triangles alone. A triangle is never split between hoopings.
    """
    seam = pocket.seam
    x0, x1 = left + seam.inset, left + pocket.width - seam.inset
    y0, y1 = top + seam.inset, top + pocket.length - seam.inset
    ends: tuple[tuple[float, Hand], ...] = ((x0, "left"), (x1, "right"))
    first, last = (
        corner_path(
            corner=(x, y0),
            side_mm=seam.corner_side,
            across_mm=seam.corner_across,
            passes=seam.passes,
            hand=hand,
        )
        for x, hand in ends
    )
    parts = (
        [np.concatenate([first, [(x0, y1), (x1, y1)], last[::-1]])]
        if seam.sew == "sides"
        else [first, last[::-1]]
    )
    count = len(first) - 1
    return tuple(
        Line(
            points=points,
            kind=LineKind.SEAM,
            stitch_mm=seam.stitch_length,
            whole=tuple({(0, count), (len(points) - 1 - count, len(points) - 1)}),
        )
        for points in parts
    )
