"""Shapes stamped at many places."""

import numpy as np
import pytest

from stitchpath.preview.marks import ARROW, POINTER, SLASH, SQUARE, box, boxes, stamped


def test_a_shape_stands_around_each_place() -> None:
    lines = stamped(SQUARE, [(10, 20), (0, 0)], 4)
    assert [line.tolist() for line in lines] == [
        [[8, 18], [12, 18], [12, 22], [8, 22]],
        [[-2, -2], [2, -2], [2, 2], [-2, 2]],
    ]


@pytest.mark.parametrize("way", [(1.0, 0.0), (0.0, 1.0), (-0.6, 0.8)])
def test_an_arrow_points_along_its_way(way: tuple[float, float]) -> None:
    (line,) = stamped(ARROW, [(5, 5)], 2, along=[way])
    tip = line[1] - (5, 5)
    assert tip / np.hypot(*tip) == pytest.approx(way)


def test_a_head_points_to_the_top_of_a_turned_field() -> None:
    # A field turned by 90 degrees clockwise has its x axis down the piece, its top right.
    (line,) = stamped(POINTER, [(0, 0)], 1, along=[(0.0, 1.0)])
    assert line[1] == pytest.approx((0.6, 0.0))


def test_several_boxes_are_each_as_one_alone() -> None:
    lines = boxes([(1, 2, 3, 5), (-1, 0, 4, 1)])
    alone = [*box(1, 2, 3, 5), *box(-1, 0, 4, 1)]
    assert [line.tolist() for line in lines] == [line.tolist() for line in alone]
    assert alone[0].tolist() == [[1, 2], [3, 2], [3, 5], [1, 5]]
    assert not len(boxes([]))


def test_no_place_gives_no_shape() -> None:
    assert not len(stamped(SLASH, np.empty((0, 2)), 3))


def test_a_box_has_its_four_corners() -> None:
    (line,) = box(1, 2, 3, 4)
    assert line.tolist() == [[1, 2], [3, 2], [3, 4], [1, 4]]
