"""Small SVG files, and how far polylines are from a curve."""

from collections.abc import Callable
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points

PIXEL: Final = 25.4 / 96
"""A CSS pixel in mm: 96 to the inch of 25.4 mm."""


def svg(body: str, attributes: str = "") -> bytes:
    """Return the bytes of an SVG file."""
    spaces = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
    return f"<svg {spaces} {attributes}>{body}</svg>".encode()


def box(points: Points) -> list[float]:
    """Return left, top, width, height of a polyline in CSS pixels, to a millionth."""
    low, size = points.min(axis=0), np.ptp(points, axis=0)
    return [round(float(number) / PIXEL, 6) for number in (*low, *size)]


def furthest(
    points: Points, curve: Callable[[NDArray[np.float64]], Points], end: float = 1.0
) -> float:
    """Return how far a curve, given by its parameter from 0, gets from a polyline, mm."""
    places = curve(np.linspace(0.0, end, 4001))
    start, step = points[:-1], np.diff(points, axis=0)
    worst = 0.0
    for place in places:
        along = ((place - start) * step).sum(axis=1) / (step**2).sum(axis=1)
        nearest = start + np.clip(along, 0, 1)[:, None] * step
        worst = max(worst, float(np.hypot(*(nearest - place).T).min()))
    return worst
