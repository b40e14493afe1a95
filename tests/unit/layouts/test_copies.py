"""Where copies of a design lie, and how their points come there."""

from typing import Any

import numpy as np
import pytest
import shapely

from stitchpath.geometry.points import in_steps
from stitchpath.layouts._copies import copies_of, count_copies, pose_of
from stitchpath.model.design import Design
from stitchpath.model.piece import Piece
from stitchpath.model.shape import Shape
from stitchpath.pieces.outline import rectangle
from tests.support.designs import stitched

PIECE = Piece(name="quilt", width=100, length=80, outline=rectangle(0, 0, 100, 80))
FREE = shapely.box(5, 5, 95, 75)
BOX = stitched((0, 0), (100, 0), (100, 200), (0, 200))
"""10 mm wide, 20 mm high."""


def middles(**keys: Any) -> list[list[float]]:  # noqa: ANN401 - any key of a design
    design = Design(file=BOX, **keys)
    places = copies_of(design, pose_of(design), PIECE, FREE)
    assert len(places) <= count_copies(design, PIECE)
    return sorted(np.round(places, 6).tolist(), key=lambda place: place[::-1])


def test_one_copy_lies_in_the_middle_of_its_area_or_where_it_is_told() -> None:
    assert middles() == [[50, 40]]
    assert middles(area=Shape(rectangle=(0, 0, 30, 40)), repeat="single") == [[15, 20]]
    assert middles(at=(-5, 7)) == [[-5, 7]]


def test_so_many_columns_and_rows_lie_about_the_middle_even_off_the_area() -> None:
    assert middles(repeat="straight", columns=3, rows=1, pitch=(60, 30)) == [
        [-10, 40], [50, 40], [110, 40],
    ]  # fmt: skip


def test_copies_fill_the_free_area_whole_and_centred() -> None:
    """90 by 70 mm hold nine columns of 10 mm and three rows of 20 mm (geometry)."""
    places = middles(repeat="straight")
    assert len(places) == 27
    assert places[0] == [10, 20]
    assert places[-1] == [90, 60]


def test_other_rows_of_bricks_and_columns_of_half_drops_are_moved_by_half_a_step() -> None:
    """The second row of bricks: eight of 10 mm between nine (geometry)."""
    bricks = middles(repeat="brick")
    assert [place[0] for place in bricks if place[1] == 20] == list(range(10, 91, 10))
    assert [place[0] for place in bricks if place[1] == 40] == list(range(15, 86, 10))
    drops = middles(repeat="half-drop")
    assert [place[1] for place in drops if place[0] == 10] == [20, 40, 60]
    assert [place[1] for place in drops if place[0] == 20] == [30, 50]


def test_with_a_place_told_a_copy_lies_there_and_others_in_step() -> None:
    places = middles(repeat="straight", at=(12, 41), rows=1, pitch=(20, 20))
    assert places == [[12, 41], [32, 41], [52, 41], [72, 41]]


def test_nothing_lies_in_an_area_too_small_for_a_copy() -> None:
    assert middles(repeat="straight", area=Shape(rectangle=(0, 0, 9, 70))) == []


def test_copies_in_a_crooked_area_lie_whole_in_it() -> None:
    corner = Shape(polygon=((0, 0), (100, 0), (0, 80)))
    region = shapely.Polygon([(0, 0), (100, 0), (0, 80)])
    places = middles(repeat="straight", area=corner)
    assert 3 < len(places) < 27
    for x, y in places:
        assert region.buffer(0.2).contains(shapely.box(x - 5, y - 10, x + 5, y + 10))


@pytest.mark.parametrize("angle", [0, 90, 180, 270, -90])
@pytest.mark.parametrize("mirror", [False, True])
def test_kept_points_lie_in_whole_tenths_and_the_same_steps_apart(
    angle: int, *, mirror: bool
) -> None:
    file = stitched((0, 0), (13, 0), (13, 24), (-8, 7))
    design = Design(file=file, angle=angle, mirror=mirror)
    pose = pose_of(design)
    assert pose.way == "kept"
    points = pose.about(file.stitches.needle_points, np.array([33.333, 18.07]))
    assert (points == in_steps(points) / 10).all()
    turn = {0: [[1, 0], [0, 1]], 90: [[0, 1], [-1, 0]], 180: [[-1, 0], [0, -1]],
            270: [[0, -1], [1, 0]]}[angle % 360]  # fmt: skip
    steps = np.diff(file.stitches.needle_points, axis=0) * ([-1, 1] if mirror else 1)
    assert (np.diff(in_steps(points), axis=0) == np.rint(steps @ turn * 10)).all()
    middle = (points.min(axis=0) + points.max(axis=0)) / 2
    assert np.abs(middle - [33.333, 18.07]).max() <= 0.1


def test_turned_and_scaled_points_lie_where_geometry_puts_them() -> None:
    turned = pose_of(Design(file=BOX, angle=30))
    assert turned.way == "turned"
    corner = turned.about(np.array([[10.0, 10.0]]), np.zeros(2))[0]
    assert corner == pytest.approx([5 * np.cos(np.pi / 6), 5 * np.sin(np.pi / 6)])
    scaled = pose_of(Design(file=BOX, width=25))
    assert (scaled.way, scaled.scale) == ("scaled", 2.5)
    assert scaled.about(np.array([[10.0, 20.0]]), np.zeros(2))[0] == pytest.approx([12.5, 25])
    assert pose_of(Design(file=BOX, width=10)).way == "kept"
