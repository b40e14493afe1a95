"""What a layout is: a name, a line of description, and a function that makes lines."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

import shapely

from stitchpath.geometry.points import Points
from stitchpath.model.project import Quilting

Region: TypeAlias = shapely.Polygon | shapely.MultiPolygon


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """Where a layout is laid.

    Attributes:
        region: Where lines may lie; a layout may reach past it, what does is clipped.
        frame: x0, y0, x1, y1 of the shape that the layout is centred on, mm.
    """

    region: Region
    frame: tuple[float, float, float, float]

    @property
    def centre(self) -> tuple[float, float]:
        """The middle of the frame."""
        left, top, right, bottom = self.frame
        return (left + right) / 2, (top + bottom) / 2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Strand:
    """A line as a layout makes it, before it is clipped; `anchor` lines are sewn first."""

    points: Points
    anchor: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """One layout.

    Attributes:
        summary: What it looks like, in one line.
        make: Makes its strands on a ground, anchor strands in the order of sewing.
        angles: The only angles it takes; empty for any.
    """

    summary: str
    make: Callable[[Ground, Quilting], tuple[Strand, ...]]
    angles: tuple[float, ...] = ()
