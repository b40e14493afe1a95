"""Lines clipped to regions."""

import numpy as np
import shapely

from stitchpath.geometry.clip import clip_lines
from tests.support.lines import assert_same_line

SQUARE = shapely.box(0, 0, 100, 100)


def test_a_line_through_a_hole_comes_back_as_two_parts_in_order() -> None:
    ring = shapely.Polygon(SQUARE.exterior, [shapely.box(40, 40, 60, 60).exterior])
    parts = clip_lines([np.array([[120.0, 50.0], [-20.0, 50.0]])], ring)
    assert [owner for owner, _ in parts] == [0, 0]
    assert_same_line(parts[0][1], [(100, 50), (60, 50)])
    assert_same_line(parts[1][1], [(40, 50), (0, 50)])


def test_a_line_on_the_border_belongs_to_the_region() -> None:
    ((_, part),) = clip_lines([np.array([[0.0, -5.0], [0.0, 200.0]])], SQUARE)
    assert_same_line(part, [(0, 0), (0, 100)])


def test_a_line_that_touches_a_corner_gives_nothing() -> None:
    assert clip_lines([np.array([[-10.0, 10.0], [10.0, -10.0]])], SQUARE) == []


def test_parts_name_the_line_they_come_from() -> None:
    lines = [np.array([[x, -1.0], [x, 101.0]]) for x in (500.0, 10.0, 20.0)]
    assert [owner for owner, _ in clip_lines(lines, SQUARE)] == [1, 2]


def test_a_bent_line_keeps_its_corner() -> None:
    ((_, part),) = clip_lines([np.array([[-5.0, 50.0], [50.0, 50.0], [50.0, 300.0]])], SQUARE)
    assert_same_line(part, [(0, 50), (50, 50), (50, 100)])


def test_nothing_is_clipped_to_nothing() -> None:
    assert clip_lines([], SQUARE) == []
