"""Hoopings: where to put the hoop, and which part of which line each placing sews."""

from stitchpath.hoopings.marks import mark_hoopings
from stitchpath.hoopings.place import Placed, place_hoopings

__all__ = ["Placed", "mark_hoopings", "place_hoopings"]
