"""The reinforcing triangle at a corner of the pocket's mouth.

By hand: from the corner down the side, back up to the corner, along the mouth, back, forward
again, then slanting to where the side leg ended, and on down the side. Sources: patch-pocket
corners stitched at an angle and closed to a small triangle, US extension bulletin 574, 1964;
the order of the legs is common practice, no source.
"""

from typing import Literal, TypeAlias

from stitchpath.geometry.points import Points, frozen_points

Hand: TypeAlias = Literal["left", "right"]
"""Which end of the mouth a corner is at."""


def corner_path(
    *,
    corner: tuple[float, float],
    side_mm: float,
    across_mm: float,
    passes: int,
    hand: Hand = "left",
) -> Points:
    """Return the way of the needle through one triangle, from the corner to the leg's end.

    The side leg is sewn an even number of times and the mouth leg an odd number, at most
    `passes` each, since the needle has to come back to the corner and leave along the slant;
    with one pass each leg is sewn once, beginning at the side leg's end.

    Args:
        corner: Where the legs meet, x and y in mm; the mouth is the upper edge.
        side_mm: The leg down the side, > 0.
        across_mm: The leg along the mouth, > 0.
        passes: How often a leg is sewn, at the most, >= 1.
        hand: The corner at the left end of the mouth, or the right one, its mirror image.

    Returns:
        Vertices, shape (n, 2), mm.

    Example:
        >>> path = corner_path(corner=(0, 0), side_mm=22, across_mm=12, passes=3)
        >>> [tuple(point) for point in path.astype(int).tolist()]
        [(0, 0), (0, 22), (0, 0), (12, 0), (0, 0), (12, 0), (0, 22)]
    """
    x, y = corner
    foot = (x, y + side_mm)
    across = (x + across_mm if hand == "left" else x - across_mm, y)
    if passes == 1:
        return frozen_points([foot, corner, across, foot])
    side_trips, mouth_trips = passes // 2, (passes - 1) // 2
    return frozen_points(
        [corner, *[foot, corner] * side_trips, *[across, corner] * mouth_trips, across, foot]
    )
