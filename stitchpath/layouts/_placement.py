"""How a layout's own frame lies on the piece: turned by its angle, stretched to fit."""

from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.families import unit_vector
from stitchpath.geometry.points import Points
from stitchpath.layouts._layout import Ground, Layout, Region
from stitchpath.model.quilt import Quilting


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Placement:
    """A layout's frame on the piece: `piece = centre + turn . (stretch * (point - centre))`.

    Attributes:
        centre: The point that both frames share, mm.
        turn: Rotation, shape (2, 2).
        stretch: Along the layout's own x and y.
    """

    centre: tuple[float, float]
    turn: NDArray[np.float64]
    stretch: tuple[float, float] = (1.0, 1.0)

    def to_piece(self, points: Points) -> Points:
        """Return points of the layout's frame as points of the piece."""
        if self.is_identity:
            return points
        return (points - self.centre) * self.stretch @ self.turn.T + self.centre

    def to_layout(self, points: Points) -> Points:
        """Return points of the piece in the layout's frame."""
        if self.is_identity:
            return points
        return (points - self.centre) @ self.turn / self.stretch + self.centre

    @property
    def is_identity(self) -> bool:
        """Whether both frames are the same."""
        return self.stretch == (1.0, 1.0) and bool(self.turn[0, 0] == 1.0)


def place_layout(ground: Ground, layout: Layout, spec: Quilting) -> tuple[Placement, Ground]:
    """Return how a layout lies on its ground, and the ground in the layout's own frame.

    Args:
        ground: In the piece's frame.
        layout: What is laid.
        spec: Its angle, and whether and how far it may be stretched.
    """
    angle = spec.angle if layout.turns else 0.0
    along, across = unit_vector(angle), unit_vector(angle + 90)
    turned = Placement(centre=ground.centre, turn=np.column_stack([along, across]))
    own = _seen(ground, turned)
    if not spec.fit or layout.repeat is None or angle % 90:
        return turned, own
    left, top, right, bottom = own.frame
    stretch = tuple(
        _stretch(side, repeat, spec)
        for side, repeat in zip((right - left, bottom - top), layout.repeat(spec), strict=True)
    )
    fitted = Placement(centre=turned.centre, turn=turned.turn, stretch=(stretch[0], stretch[1]))
    return fitted, _seen(ground, fitted)


def whole_stretch(side_mm: float, repeat_mm: float, spec: Quilting) -> float:
    """Return by what factor whole repeats fill a side, or each half of it from the centre.

    Example:
        >>> whole_stretch(330, 50, Quilting(start="centre"))
        1.1
    """
    step = 2 * repeat_mm if spec.start == "centre" else repeat_mm
    return side_mm / (max(1, round(side_mm / step)) * step)


def _stretch(side_mm: float, repeat_mm: float, spec: Quilting) -> float:
    """Return by what factor whole repeats fill a side, or 1 where that is too much."""
    factor = whole_stretch(side_mm, repeat_mm, spec) if repeat_mm else 1.0
    return factor if abs(factor - 1) <= spec.fit_limit else 1.0


def _seen(ground: Ground, placement: Placement) -> Ground:
    """Return a ground in the layout's own frame."""
    if placement.is_identity:
        return ground
    region: Region = shapely.transform(ground.region, placement.to_layout)
    corners = placement.to_layout(shapely.get_coordinates(shapely.box(*ground.frame)))
    low, high = corners.min(axis=0), corners.max(axis=0)
    return Ground(
        region=region,
        frame=(float(low[0]), float(low[1]), float(high[0]), float(high[1])),
        border_mm=ground.border_mm,
    )
