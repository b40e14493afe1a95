"""How far hoops reach beyond the piece, where cloth has to be to hoop by.

Formula. The farthest that a hoop's ring, outside, reaches past a finished edge in any hooping;
where a ring is not known, the farthest that a corner of a field lies outside the rectangle of
the finished piece.

Source: geometry. Limits: the ring is as large as the project says, or 20 mm wider than the
field on every side; measure yours.
"""

from collections.abc import Sequence

import numpy as np

from stitchpath.model.plan import Stage


def hoop_overhang(stages: Sequence[Stage]) -> float:
    """Return how far the hoops of all stages reach beyond their pieces at the most, mm."""
    reaches = [0.0]
    for stage in stages:
        for sewn in stage.hoopings:
            corners = sewn.hooping.corners
            over = corners - np.array([stage.piece.width, stage.piece.length])
            field = float(max(over.max(), -corners.min()))
            reaches.append(max(field, sewn.hooping.overhang.most))
    return max(reaches)
