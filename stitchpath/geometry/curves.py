"""Curves flattened to polylines, within a tolerance that nobody sees."""

from collections.abc import Callable
from math import acos, ceil

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import FLATNESS_MM

_FEWEST = 4  # chords of a piece
_MOST_DOUBLINGS = 16


def arc_points(
    centre: tuple[float, float],
    radius_mm: float,
    start_rad: float,
    end_rad: float,
    *,
    flatness_mm: float = FLATNESS_MM,
) -> Points:
    """Return a circular arc as points on the circle, both ends among them.

    Args:
        centre: Of the circle, mm.
        radius_mm: > 0.
        start_rad: Where the arc begins; 0 is to the right, a quarter turn is down.
        end_rad: Where it ends; beyond `start_rad` for clockwise as it lies, else the other way.
        flatness_mm: How far a chord may be from the arc: r (1 - cos(step / 2)).

    Example:
        >>> arc_points((0, 0), 10, 0, np.pi / 2)[[0, -1]].round(6).tolist()
        [[10.0, 0.0], [0.0, 10.0]]
    """
    step = 2 * acos(max(0.0, 1 - flatness_mm / radius_mm))
    count = max(2, ceil(abs(end_rad - start_rad) / step)) + 1
    angle = np.linspace(start_rad, end_rad, count)
    return np.column_stack(
        [centre[0] + radius_mm * np.cos(angle), centre[1] + radius_mm * np.sin(angle)]
    )


def curve_points(
    place: Callable[[NDArray[np.float64]], Points],
    start: float,
    end: float,
    *,
    pieces: int = 1,
    flatness_mm: float = FLATNESS_MM,
) -> Points:
    """Return a smooth curve as points on it, evenly spaced in its parameter.

    Args:
        place: Gives the points, shape (n, 2), mm, at parameters of shape (n,).
        start: The parameter at which the curve begins.
        end: The parameter at which it ends.
        pieces: Equal parts of the parameter that each turn by less than half a circle; of a
            wave, four to the period.
        flatness_mm: How far the middle of a chord may be from the curve's own middle there.

    Raises:
        ValueError: The curve is not smooth enough to flatten (a caller's bug).
    """
    count = _FEWEST * pieces
    for _ in range(_MOST_DOUBLINGS):
        parameter = np.linspace(start, end, 2 * count + 1)
        points = place(parameter)
        middle = (points[:-2:2] + points[2::2]) / 2
        off = np.hypot(*(points[1::2] - middle).T)
        if off.max() <= flatness_mm:
            return points[::2]
        count *= 2
    raise ValueError("the curve does not flatten")
