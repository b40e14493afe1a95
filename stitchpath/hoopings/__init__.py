"""Hoopings: where to put the hoop, and which part of which line each placing sews."""

from stitchpath.hoopings.place import Placed, PlacedStage, place_hoopings

__all__ = ["Placed", "PlacedStage", "place_hoopings"]
