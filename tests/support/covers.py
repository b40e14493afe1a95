"""Covers made short, and whether one reaches some lines, told by shapely."""

import numpy as np
import shapely

from stitchpath.geometry.tolerance import ROUNDING_MM
from stitchpath.hoopings.places import Cover, Kind, Place


def kind(width: float, height: float, *, turn_deg: float = 0.0, rim: float = 20.0) -> Kind:
    """Return a field that reaches so far on the piece; a turned one too."""
    sides = (width, height) if turn_deg == 0 else (height, width)
    field = (sides[0] + ROUNDING_MM, sides[1] + ROUNDING_MM)
    return Kind(field=field, turn_deg=turn_deg, ring=(field[0] + 2 * rim, field[1] + 2 * rim))


def turnable(width: float, height: float) -> tuple[Kind, ...]:
    """Return a field upright and turned, reaching so far."""
    if width == height:
        return (kind(width, height),)
    return kind(width, height), kind(height, width, turn_deg=90.0)


def grid_of(reach: float, pitch: float, columns: int, rows: int) -> Cover:
    """Return square fields in rows, the first cell's corner at the origin."""
    one = kind(reach, reach)
    return tuple(
        Place(kind=one, centre=((column + 0.5) * pitch, (row + 0.5) * pitch))
        for row in range(rows)
        for column in range(columns)
    )


def field_shapes(cover: Cover, room_mm: float = 1e-4) -> list[shapely.Polygon]:
    """Return what the needle reaches from each place, a hair larger."""
    grown = np.array([-1, -1, 1, 1]) * room_mm
    return [shapely.box(*(np.array(place.box) + grown)) for place in cover]
