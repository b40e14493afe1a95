"""How far fields reach beyond the piece, where cloth has to be to hoop by.

Formula. The corners of every field, moved and turned as its hooping is; the farthest that one
of them lies outside the rectangle of the finished piece.

Source: geometry. Limits: the hoop's rim lies farther out than the field, by what the hoop's
maker says or a ruler shows; that is not counted.
"""

from collections.abc import Sequence

import numpy as np

from stitchpath.model.plan import Stage


def field_overhang(stages: Sequence[Stage]) -> float:
    """Return how far the fields of all stages reach beyond their pieces at the most, mm."""
    reaches = [0.0]
    for stage in stages:
        for sewn in stage.hoopings:
            corners = sewn.hooping.corners
            over = corners - np.array([stage.piece.width, stage.piece.length])
            reaches.append(float(max(over.max(), -corners.min())))
    return max(reaches)
