"""Hoopings: where to put the hoop, and which part of which line each placing sews."""

from stitchpath.hoopings.marks import mark_hoopings
from stitchpath.hoopings.place import PlacedStage, place_hoopings
from stitchpath.hoopings.split_stitches import lay_on_piece, split_stitches

__all__ = [
    "PlacedStage",
    "lay_on_piece",
    "mark_hoopings",
    "place_hoopings",
    "split_stitches",
]
