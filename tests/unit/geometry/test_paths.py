"""Parts of polylines, by distance along them."""

import numpy as np

from stitchpath.geometry.paths import cut_path, distances_along, points_at
from tests.support.lines import assert_same_line

HOOK = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0]])


def test_distances_add_up_along_the_line() -> None:
    assert distances_along(HOOK).tolist() == [0, 10, 20]


def test_places_before_the_start_and_past_the_end_are_the_ends() -> None:
    places = points_at(HOOK, np.array([-5.0, 12.0, 99.0]))
    assert_same_line(places, [(0, 0), (10, 2), (10, 10)])


def test_a_part_keeps_the_vertices_inside_it() -> None:
    (part,) = cut_path(HOOK, np.array([[5.0, 15.0]]))
    assert_same_line(part, [(5, 0), (10, 0), (10, 5)])


def test_a_part_that_begins_on_a_vertex_has_it_once() -> None:
    first, second = cut_path(HOOK, np.array([[0.0, 10.0], [10.0, 20.0]]))
    assert_same_line(first, [(0, 0), (10, 0)])
    assert_same_line(second, [(10, 0), (10, 10)])


def test_a_straight_line_is_cut_into_straight_parts() -> None:
    parts = cut_path(np.array([[0.0, 0.0], [0.0, 30.0]]), np.array([[0, 13], [7, 30]]))
    assert_same_line(parts[0], [(0, 0), (0, 13)])
    assert_same_line(parts[1], [(0, 7), (0, 30)])


def test_what_is_asked_for_past_the_ends_is_left_off() -> None:
    (part,) = cut_path(HOOK, np.array([[-3.0, 23.0]]))
    assert_same_line(part, HOOK)
