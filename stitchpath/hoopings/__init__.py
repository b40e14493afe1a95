"""Hoopings: where to put the hoop, and which part of which line each placing sews."""

from stitchpath.hoopings.marks import mark_hoopings
from stitchpath.hoopings.place import Placed, PlacedStage, place_hoopings
from stitchpath.hoopings.room import give_back_room, keep_room

__all__ = [
    "Placed",
    "PlacedStage",
    "give_back_room",
    "keep_room",
    "mark_hoopings",
    "place_hoopings",
]
