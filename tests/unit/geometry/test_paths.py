"""Parts of polylines, by distance along them."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.geometry.paths import Paths, cut_path, distances_along, points_at, ranges
from stitchpath.geometry.points import Points
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


def test_several_paths_know_their_segments_and_ends() -> None:
    paths = Paths.of([HOOK, HOOK[:1], HOOK[1:]])
    assert len(paths) == 3
    assert paths.starts.tolist() == [0, 3, 4, 6]
    assert paths.lengths.tolist() == [20, 0, 10]
    assert paths.heads.tolist() == [0, 1, 4]
    assert paths.owners.tolist() == [0, 0, 2]
    assert_same_line(paths.segments[1], HOOK[1:])
    assert_same_line(paths.ends[2], HOOK[1:])
    assert [shape.length for shape in Paths.of([HOOK, HOOK[1:]]).shapes()] == [20, 10]


@given(counts=st.lists(st.integers(1, 9), min_size=1, max_size=6), seed=st.integers(0, 999))
def test_distances_along_several_paths_are_those_along_each(
    counts: list[int], seed: int
) -> None:
    """To the last bit: what is decided may not depend on how many are measured together."""
    chance = np.random.default_rng(seed)
    several: list[Points] = [chance.uniform(-900, 900, (count, 2)) for count in counts]
    paths = Paths.of(several)
    each = [distances_along(points) for points in several]
    assert paths.along.tolist() == np.concatenate(each).tolist()
    assert paths.lengths.tolist() == [along[-1] for along in each]


def test_ranges_follow_on_one_another() -> None:
    assert ranges(np.array([5, 0, 9]), np.array([2, 0, 3])).tolist() == [5, 6, 9, 10, 11]
