"""The motion that brings points best onto others: turned, shifted and, if wanted, stretched."""

from dataclasses import dataclass
from math import atan2, cos, hypot, sin

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import SAME_POINT_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class Motion:
    """A turn about the origin, a stretch, then a shift: `after = scale R . before + shift`.

    Attributes:
        angle_rad: The turn, from x towards y.
        shift: Where the origin goes, mm.
        scale: 1 for a rigid motion.
    """

    angle_rad: float
    shift: tuple[float, float]
    scale: float = 1.0

    def moved(self, points: Points) -> Points:
        """Return points after the motion, shape (n, 2), mm."""
        c, s = self.scale * cos(self.angle_rad), self.scale * sin(self.angle_rad)
        x, y = points.T
        return np.column_stack([c * x - s * y, s * x + c * y]) + self.shift

    def undone(self, points: Points) -> Points:
        """Return where points were before the motion, shape (n, 2), mm."""
        c, s = cos(self.angle_rad) / self.scale, sin(self.angle_rad) / self.scale
        x, y = (points - self.shift).T
        return np.column_stack([c * x + s * y, c * y - s * x])


def best_motion(before: Points, after: Points, *, may_stretch: bool = False) -> Motion:
    """Return the motion that leaves the least sum of squared distances; never a mirror image.

    Args:
        before: Places, shape (n, 2), mm; two of them differ.
        after: Where each really is, shape (n, 2), mm.
        may_stretch: Find the best scale as well, the same along both axes.

    Raises:
        ValueError: All places are one, before or after, or lie so that no turn is better than
            another (a caller's bug: whoever takes marks checks them).

    Source: W. Kabsch 1976 for the turn, S. Umeyama 1991 for the scale; docs/sources.md. In the
    plane the singular value decomposition comes down to an arc tangent.

    Example:
        >>> quarter = best_motion(np.array([[0.0, 0], [1, 0]]), np.array([[5.0, 5], [5, 6]]))
        >>> round(np.degrees(quarter.angle_rad)), quarter.shift
        (90, (5.0, 5.0))
    """
    middle, middle_after = before.mean(axis=0), after.mean(axis=0)
    (x, y), (u, v) = (before - middle).T, (after - middle_after).T
    along, across = float(x @ u + y @ v), float(x @ v - y @ u)
    spread = float(x @ x + y @ y)
    if min(spread, hypot(along, across)) <= SAME_POINT_MM**2:
        raise ValueError("places that differ are needed to find a motion")
    scale = hypot(along, across) / spread
    turned = Motion(
        angle_rad=atan2(across, along), shift=(0.0, 0.0), scale=scale if may_stretch else 1.0
    )
    shift_x, shift_y = (middle_after - turned.moved(middle[None, :])[0]).tolist()
    return Motion(angle_rad=turned.angle_rad, shift=(shift_x, shift_y), scale=turned.scale)
