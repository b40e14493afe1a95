"""Hoopings: one placing of the hoop on a piece, and how its frame relates to the piece's."""

from dataclasses import dataclass
from math import cos, radians, sin
from typing import Literal, TypeAlias

import numpy as np

from stitchpath.geometry.points import Points, parts_of


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


Side: TypeAlias = Literal["left", "top", "right", "bottom"]
"""A side of the piece as it lies face up in its own frame, the pocket at the bottom."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Throat:
    """What of the piece lies between needle and machine body while a hooping is sewn.

    Attributes:
        side: The piece's side that lies to the right, in the throat.
        width: How much of the piece lies right of the needle when the field is centred, mm.
        roll: Diameter of the loose roll it makes there, mm; 0 where it lies flat.
        fits: Whether the throat holds the ring and the roll.
    """

    side: Side
    width: float
    roll: float
    fits: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Overhang:
    """How far a hoop's ring reaches past each side of the piece, mm; 0 where it does not."""

    left: float = 0.0
    top: float = 0.0
    right: float = 0.0
    bottom: float = 0.0

    @property
    def most(self) -> float:
        """The largest of the four, mm."""
        return max(self.left, self.top, self.right, self.bottom)


@dataclass(frozen=True, slots=True, kw_only=True)
class Join:
    """Where two hoopings meet on a line; both sew half the overlap past it.

    Attributes:
        place: On the piece, x and y in mm.
        hoopings: Their numbers within the stage, the smaller first.
        is_on_crossing: Whether another line meets this one there.
    """

    place: tuple[float, float]
    hoopings: tuple[int, int]
    is_on_crossing: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Hooping:
    """One placing of the hoop: `piece = centre + R . field`.

    Attributes:
        number: From 1, in the order of sewing within the stage.
        field: Width and height of what the needle can reach, in the file's own axes, mm.
        centre: The field's centre on the piece, mm.
        turn_deg: How far the field is turned on the piece, R = [[cos, -sin], [sin, cos]].
        marks: What to line it up with.
        ring: Width and height of the hoop's ring, outside, in the file's own axes, mm.
        overhang: How far the ring reaches past the piece.
        throat: What lies between needle and machine body; None where nobody worked it out.
    """

    number: int
    field: tuple[float, float]
    centre: tuple[float, float]
    turn_deg: float = 0.0
    marks: tuple[Mark, ...] = ()
    ring: tuple[float, float] | None = None
    overhang: Overhang = Overhang()
    throat: Throat | None = None

    def to_field(self, points: Points) -> Points:
        """Return points of the piece as places in the field, from its centre."""
        c, s = self._turn
        moved = np.empty(points.shape)
        for part in parts_of(len(points)):
            x, y = (points[part] - self.centre).T
            moved[part, 0], moved[part, 1] = c * x + s * y, c * y - s * x
        return moved

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
