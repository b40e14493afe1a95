"""Hoopings: one placing of the hoop on a piece, and how its frame relates to the piece's."""

from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np

from stitchpath.geometry.points import Points


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """A placement mark: a cross on the piece that a hooping is lined up with.

    Attributes:
        name: A letter.
        piece: Its place on the piece, mm.
        field: Its place in the field, from the field's centre, mm.
    """

    name: str
    piece: tuple[float, float]
    field: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hooping:
    """One placing of the hoop: `piece = centre + R . field`.

    Attributes:
        number: From 1, in the order of sewing within the stage.
        field: Width and height of what the needle can reach, in the file's own axes, mm.
        centre: The field's centre on the piece, mm.
        turn_deg: How far the field is turned on the piece, R = [[cos, -sin], [sin, cos]].
        marks: What to line it up with.
    """

    number: int
    field: tuple[float, float]
    centre: tuple[float, float]
    turn_deg: float = 0.0
    marks: tuple[Mark, ...] = ()

    def to_field(self, points: Points) -> Points:
        """Return points of the piece as places in the field, from its centre."""
        c, s = self._turn
        x, y = (points - self.centre).T
        return np.column_stack([c * x + s * y, c * y - s * x])

    def to_piece(self, points: Points) -> Points:
        """Return places in the field as points of the piece."""
        c, s = self._turn
        x, y = points.T
        return np.column_stack([c * x - s * y, s * x + c * y]) + self.centre

    @property
    def corners(self) -> Points:
        """The field's four corners on the piece, shape (4, 2), mm."""
        half = np.array(self.field) / 2
        return self.to_piece(np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * half)

    @property
    def _turn(self) -> tuple[float, float]:
        """Cosine and sine of the turn, exact at quarter turns.

        Points are turned column by column: a matrix product goes through a library that may
        round otherwise on another machine, and is slower on busy ones.
        """
        quarter, rest = divmod(self.turn_deg % 360, 90)
        if rest == 0:  # an angle just below 0 is 360 after the modulo: five quarters
            return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
        return cos(radians(self.turn_deg)), sin(radians(self.turn_deg))
