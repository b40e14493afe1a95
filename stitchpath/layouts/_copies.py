"""Where the copies of a design lie on a piece, and how its points come there."""

from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely
from numpy.typing import NDArray

from stitchpath.geometry.families import unit_vector
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import GRID_MM, SAME_POINT_MM, STEPS_PER_MM
from stitchpath.layouts._grounds import area_of
from stitchpath.layouts._layout import Region
from stitchpath.model.design import Design, Way
from stitchpath.model.piece import Piece

LEAST_STEP_MM: Final = 1.0
"""From one copy to the next, also of a design or a drawing without height."""

_RIGHT_ANGLE: Final = 90.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Pose:
    """How a design lies: mirrored, scaled and turned about its own middle.

    Attributes:
        middle: Of its needle points in the file, shape (2,), mm.
        frame: What its points are multiplied by, shape (2, 2).
        scale: By how much it is scaled.
        way: What becomes of its needle points.
    """

    middle: Points
    scale: float
    frame: NDArray[np.float64]
    way: Way

    def about(self, points: Points, place: Points) -> Points:
        """Return points of the file with its middle at a place on the piece.

        Kept needle points stay in whole tenths of a mm and the same steps apart: there the
        middle may lie up to half a tenth beside the place.
        """
        if self.way != "kept":
            return (points - self.middle) @ self.frame + place
        corner = np.floor(self.middle * STEPS_PER_MM)
        steps = np.rint(points * STEPS_PER_MM) - corner
        beside = (self.middle * STEPS_PER_MM - corner) @ self.frame
        there = np.rint(place * STEPS_PER_MM - beside)
        return np.asarray((steps @ self.frame + there) / STEPS_PER_MM)


def pose_of(design: Design) -> Pose:
    """Return how a design lies."""
    points = design.file.stitches.needle_points
    low, high = points.min(axis=0), points.max(axis=0)
    scale = 1.0 if design.width is None else design.width / max(high[0] - low[0], GRID_MM)
    along, across = unit_vector(design.angle), unit_vector(design.angle + _RIGHT_ANGLE)
    way: Way = "kept" if design.angle % _RIGHT_ANGLE == 0 else "turned"
    if abs(scale - 1.0) <= SAME_POINT_MM:
        scale = 1.0
    else:
        way = "scaled"
    frame = scale * np.array([-along if design.mirror else along, across])
    return Pose(middle=(low + high) / 2, frame=frame, scale=scale, way=way)


def copies_of(design: Design, pose: Pose, piece: Piece, free: Region) -> Points:
    """Return where the middles of a design's copies lie, row by row, shape (n, 2), mm.

    Where the number of columns or rows is not given, those copies are taken that lie whole in
    the area.

    Args:
        design: Its rows and area.
        pose: How each copy lies.
        piece: What it lies on.
        free: Where copies may lie where no area is given.
    """
    area = free if design.area is None else area_of(design.area, piece)
    if area.is_empty:
        return np.empty((0, 2))
    left, top, right, bottom = area.bounds
    middle: Points = np.array(design.at or ((left + right) / 2, (top + bottom) / 2))
    if design.repeat == "single":
        return middle.reshape(1, 2)
    ends = np.array([(left, top), (right, bottom)]) - middle
    places = np.asarray(_in_rows(design, pose, ends) + middle)
    if design.columns is not None and design.rows is not None:
        return places
    hull = shapely.convex_hull(shapely.MultiPoint(outline_of(design, pose)))
    room = shapely.buffer(area, GRID_MM)  # kept points may lie half a tenth beside
    shapely.prepare(room)
    lie = [bool(room.contains(_moved(hull, place))) for place in places]
    return np.asarray(places[np.array(lie, dtype=np.bool_)])


def _in_rows(design: Design, pose: Pose, ends: Points) -> Points:
    """Return the middles of copies about 0, (n, 2); as many as an area may hold, or more.

    Args:
        design: Its columns and rows.
        pose: How each copy lies.
        ends: The upper left and the lower right corner of the area's box, shape (2, 2), mm.
    """
    own, pitch = np.ptp(outline_of(design, pose), axis=0), pitch_of(design, pose)
    holds = np.floor((np.ptp(ends, axis=0) - own + SAME_POINT_MM) / pitch) + 1
    if design.at is None:  # whole copies from side to side
        first, last = np.stack([-(holds - 1) / 2, (holds - 1) / 2])
    else:
        first, last = np.ceil(ends[0] / pitch), np.floor(ends[1] / pitch)
    across, down = (
        np.arange(first[way] - 1, last[way] + 2)
        if count is None
        else np.arange(count) - (count - 1) / 2
        for way, count in enumerate((design.columns, design.rows))
    )
    row, column = np.indices((len(down), len(across)))
    steps = np.stack([across[column], down[row]], axis=-1)
    if design.repeat == "brick":  # the second row, the fourth ...; before the first is one more
        steps[..., 0] += (row + (design.rows is None)) % 2 / 2
    if design.repeat == "half-drop":
        steps[..., 1] += (column + (design.columns is None)) % 2 / 2
    return np.asarray(steps.reshape(-1, 2) * pitch)


def place_copies(
    design: Design, piece: Piece, free: Region
) -> tuple[Points, tuple[float, float]]:
    """Return the middles of copies, shape (n, 2), and the width and height of one, mm."""
    pose = pose_of(design)
    width, height = np.ptp(outline_of(design, pose), axis=0).tolist()
    return copies_of(design, pose, piece, free), (round(width, 1), round(height, 1))


def count_copies(design: Design, piece: Piece) -> int:
    """Return how many copies are looked at, without making them."""
    if design.repeat == "single":
        return 1
    pose = pose_of(design)
    area = area_of(design.area, piece)
    if area.is_empty:
        return 0
    sides = np.ptp(np.reshape(area.bounds, (2, 2)), axis=0)
    holds = sides // pitch_of(design, pose) + 3
    counts = (design.columns, design.rows)
    across, down = (
        int(most) if count is None else count for count, most in zip(counts, holds, strict=True)
    )
    return across * down


def outline_of(design: Design, pose: Pose) -> Points:
    """Return the corners of a copy's outline about its middle, shape (n, 2), mm."""
    points = shapely.MultiPoint(design.file.stitches.needle_points)
    corners = shapely.get_coordinates(shapely.convex_hull(points))
    return np.asarray((corners - pose.middle) @ pose.frame)


def pitch_of(design: Design, pose: Pose) -> Points:
    """Return the way from copy to copy across and down, shape (2,), mm."""
    if design.pitch is not None:
        return np.array(design.pitch)
    return np.asarray(np.maximum(np.ptp(outline_of(design, pose), axis=0), LEAST_STEP_MM))


def _moved(shape: shapely.Geometry, place: Points) -> shapely.Geometry:
    return shapely.transform(shape, lambda points: points + place)
