"""How numbers stand in plan.json: rounded, and never -0.0."""

from typing import Final

import numpy as np

from stitchpath.geometry.points import Points

_DECIMALS: Final = 4  # a tenth of a micron: far below any needle, short enough to read


def rounded(number: float) -> float:
    """Return a number as plan.json has it."""
    return round(float(number), _DECIMALS) + 0.0


def rounded_pair(place: tuple[float, float]) -> list[float]:
    """Return a place as plan.json has it."""
    return [rounded(place[0]), rounded(place[1])]


def rounded_points(points: Points) -> list[list[float]]:
    """Return points, shape (n, 2), as plan.json has them."""
    rows: list[list[float]] = (np.round(points, _DECIMALS) + 0.0).tolist()
    return rows
