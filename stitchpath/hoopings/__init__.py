"""Hoopings: where to put the hoop, and which part of which line each placing sews."""

from stitchpath.hoopings.place import place_hoopings

__all__ = ["place_hoopings"]
