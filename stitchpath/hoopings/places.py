"""Kinds of fields, and places: where a field of one kind may be put on the piece.

A *kind* is one of the maker's fields, upright or turned by 90 degrees. A *place* is a kind and
where its centre lies. A *cover* is a set of places that together reach all lines of a stage.
"""

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np

from stitchpath.geometry.boxes import Boxes
from stitchpath.geometry.tolerance import JOIN_ROOM_MM, ROUNDING_MM
from stitchpath.model.project import Project


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A field and how it lies on the piece.

    Attributes:
        field: Width and height in the file's own axes, mm.
        turn_deg: 0 or 90.
        ring: Outer size of the hoop's ring in the file's own axes, mm.
        clear_mm: What is kept clear inside the field on all sides, so that stitches can still
            be moved.
    """

    field: tuple[float, float]
    turn_deg: float
    ring: tuple[float, float]
    clear_mm: float = 0.0

    @property
    def reach(self) -> tuple[float, float]:
        """What may be sewn on the piece, less what is kept clear and lost to rounding, mm."""
        width, height = (side - 2 * self.clear_mm - ROUNDING_MM for side in self.field)
        return (width, height) if self.turn_deg == 0 else (height, width)

    @property
    def ring_mm2(self) -> float:
        """The ring's area, by which smaller hoops are told from larger ones."""
        return self.ring[0] * self.ring[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A kind of field and where its centre lies on the piece, x and y in mm."""

    kind: Kind
    centre: tuple[float, float]

    @property
    def box(self) -> tuple[float, float, float, float]:
        """What may be sewn there: left, top, right, bottom, mm."""
        (x, y), (width, height) = self.centre, self.kind.reach
        return x - width / 2, y - height / 2, x + width / 2, y + height / 2


Cover: TypeAlias = tuple[Place, ...]


def kinds_of(project: Project) -> tuple[Kind, ...]:
    """Return what fields may be used and how they may lie: small rings first, then upright."""
    turns = (0.0, 90.0) if project.hoopings.turn else (0.0,)
    machine = project.machine
    kinds = [
        Kind(
            field=field,
            turn_deg=turn_deg,
            ring=machine.ring_of(field),
            clear_mm=project.hoopings.room,
        )
        for field in machine.owned_fields
        for turn_deg in (turns if field[0] != field[1] else turns[:1])
    ]
    return tuple(sorted(kinds, key=lambda kind: kind.ring_mm2))


def room_of(project: Project) -> float:
    """Return by how much neighbouring fields overlap at the least, mm."""
    return max(project.hoopings.overlap, JOIN_ROOM_MM)


def boxes_of(cover: Cover) -> Boxes:
    """Return what each place reaches, shape (n, 4), mm."""
    return np.array([place.box for place in cover]).reshape(-1, 4)
