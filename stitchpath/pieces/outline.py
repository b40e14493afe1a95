"""Outlines as closed rings, and the lines beside them."""

from stitchpath.geometry.points import Points, frozen_points
from stitchpath.model.line import Line, LineKind


def rectangle(left: float, top: float, right: float, bottom: float) -> Points:
    """Return a rectangle as a closed ring, clockwise as it lies, from its top left corner."""
    return frozen_points(
        [(left, top), (right, top), (right, bottom), (left, bottom), (left, top)]
    )


def ring_line(width: float, length: float, inset: float, stitch_mm: float) -> Line:
    """Return a line round a finished edge, from its bottom left corner and back to it.

    A corner is the one place that no even grid of hoopings parts, so the ring closes within a
    hooping and needs no lock there.
    """
    left, top, right, bottom = inset, inset, width - inset, length - inset
    ring = [(left, bottom), (left, top), (right, top), (right, bottom), (left, bottom)]
    return Line(points=frozen_points(ring), kind=LineKind.EDGE, stitch_mm=stitch_mm)
