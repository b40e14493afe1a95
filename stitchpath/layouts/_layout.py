"""What a layout is: a description, the keys it reads, and a function that makes lines."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TypeAlias

import shapely

from stitchpath.geometry.points import Points
from stitchpath.model.quilt import Quilting

Region: TypeAlias = shapely.Polygon | shapely.MultiPolygon

Density: TypeAlias = Callable[[Quilting], float]
"""How long the lines of a layout are together, as a multiple of area over spacing: 1 for
parallel lines, 2 for two sets of them. Rather too much than too little."""


def evenly(sets: float) -> Density:
    """Return the density of a layout on which only its spacing has a say."""
    return lambda _: sets


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """Where a layout is laid, in the layout's own frame: already turned, and scaled to fit.

    Attributes:
        region: Where lines may lie; valid, not empty. A layout may reach past it: what does is
            clipped.
        frame: x0, y0, x1, y1 of the shape that the layout is centred on, mm. For a whole piece
            its finished outline, so it may be a little larger than the region.
        border_mm: Width of the frame-shaped area that the layout lies on, or None.
    """

    region: Region
    frame: tuple[float, float, float, float]
    border_mm: float | None = None

    @property
    def centre(self) -> tuple[float, float]:
        """The middle of the frame."""
        left, top, right, bottom = self.frame
        return (left + right) / 2, (top + bottom) / 2


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Strand:
    """A line as a layout makes it, before it is clipped.

    Attributes:
        points: Vertices, shape (n, 2), mm.
        anchor: It is sewn first.
        motif: Number of the motif or text that it belongs to, or None.
    """

    points: Points
    anchor: bool = False
    motif: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """One layout.

    Attributes:
        summary: What it looks like, in one line.
        make: Makes its strands on a ground, anchor strands in the order of sewing. `angle`,
            `fit`, `margin`, `area` and `keep_out` are dealt with outside.
        keys: The keys of a quilting table that it reads, each with its default in words.
        repeat: Width and height of one repeat, mm, 0 where it does not repeat that way; None
            for a layout that cannot be fitted.
        cut_shows: Whether a maker sees, across and down, that the last repeats are cut: not
            where lines slant, or waves run out of the area.
        turns: Whether `angle` turns the whole layout; if not, the layout reads it itself.
        angles: The only angles it takes; empty for any.
        spacing_mm: Its own spacing, for a project file that leaves it out.
        density: How long its lines are, told before they are laid.
        is_straight: Whether its lines have few corners, and end at others or at the area's
            edge; all others are drawn by many points, or make the widest gap long to find.
    """

    summary: str
    make: Callable[[Ground, Quilting], tuple[Strand, ...]]
    keys: Mapping[str, str] = field(default_factory=lambda: MappingProxyType({}))
    repeat: Callable[[Quilting], tuple[float, float]] | None = None
    cut_shows: tuple[bool, bool] = (True, True)
    turns: bool = True
    angles: tuple[float, ...] = ()
    spacing_mm: float = 75.0
    density: Density = field(default=evenly(1.0))
    is_straight: bool = False
