"""Placement marks of a hooping: two crosses as far apart as field and piece allow."""

import numpy as np

from stitchpath.model.hooping import Hooping, Mark
from stitchpath.model.piece import Piece

INSET_MM = 5.0
"""How far marks stay inside field and piece, so that the foot can be lowered on them."""


def place_marks(hooping: Hooping, piece: Piece) -> tuple[Mark, ...]:
    """Return marks A, top left, and B, bottom right, both on the piece and in the field.

    Far corners are taken because the error of the angle falls with the marks' distance
    (two-point alignment: the angle is off by about a mark's error over their distance).
    """
    corners = hooping.corners
    low = np.maximum(corners.min(axis=0), 0.0) + INSET_MM
    high = np.minimum(corners.max(axis=0), [piece.width, piece.length]) - INSET_MM
    places = np.array([np.minimum(low, high), np.maximum(low, high)])
    return tuple(
        Mark(name=name, piece=(place[0], place[1]), field=(seen[0], seen[1]))
        for name, place, seen in zip(
            "AB", places.tolist(), hooping.to_field(places).tolist(), strict=True
        )
    )
