"""Hoopings: one placing of the hoop on a piece, and how its frame relates to the piece's."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

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
        return (points - self.centre) @ self._rotation

    def to_piece(self, points: Points) -> Points:
        """Return places in the field as points of the piece."""
        return points @ self._rotation.T + self.centre

    @property
    def corners(self) -> Points:
        """The field's four corners on the piece, shape (4, 2), mm."""
        half = np.array(self.field) / 2
        return self.to_piece(np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * half)

    @property
    def _rotation(self) -> NDArray[np.float64]:
        quarter, rest = divmod(self.turn_deg % 360, 90)
        if rest == 0:  # exact, so that quarter turns move nothing by a rounding
            cos, sin = ((1, 0), (0, 1), (-1, 0), (0, -1))[int(quarter) % 4]  # 4: just below 0
        else:
            cos, sin = np.cos(np.radians(self.turn_deg)), np.sin(np.radians(self.turn_deg))
        return np.array([[cos, -sin], [sin, cos]], dtype=np.float64)
