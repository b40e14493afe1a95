"""Lines that run the same way, and their places from the middle out."""

import numpy as np

from stitchpath.route.sets import WILD, find_sets
from tests.support.lines import line


def test_parallel_lines_are_a_set_whichever_way_they_are_drawn() -> None:
    lines = (line([(0, 0), (90, 0)]), line([(90, 20), (0, 20)]), line([(0, 40), (0, 90)]))
    assert find_sets(lines, (45, 20)).number.tolist() == [0, 0, 1]


def test_directions_a_little_apart_run_the_same_way() -> None:
    slant = line([(0, 20), (90, 20 + 90 * np.tan(np.radians(4)))])
    steep = line([(0, 20), (90, 20 + 90 * np.tan(np.radians(6)))])
    lines = (line([(0, 0), (90, 0)]), slant, steep)
    assert find_sets(lines, (45, 20)).number.tolist() == [0, 0, 1]


def test_just_below_half_a_turn_is_level_too() -> None:
    lines = (line([(0, 0), (90, 0)]), line([(0, 20), (90, 19.999)]))
    assert find_sets(lines, (45, 20)).number.tolist() == [0, 0]


def test_waves_run_along_and_rings_run_every_way() -> None:
    x = np.linspace(0, 90, 60)
    wave = line(np.column_stack([x, 8 * np.sin(x / 5)]))
    ring = line([(0, 0), (30, 0), (30, 30), (0, 30), (0, 0)])
    assert find_sets((wave, ring), (0, 0)).number.tolist() == [0, WILD]


def test_levels_count_from_the_middle_out_on_either_side() -> None:
    lines = tuple(line([(0, y), (90, y)]) for y in (0, 10, 20, 30, 40))
    sets = find_sets(lines, (45, 20))
    assert sets.side.tolist() == [-1, -1, 0, 1, 1]
    assert sets.level.tolist() == [2, 1, 0, 1, 2]
    apart = find_sets(lines, (45, 15))
    assert apart.side.tolist() == [-1, -1, 1, 1, 1]
    assert apart.level.tolist() == [1, 0, 0, 1, 2]


def test_parts_of_one_line_have_one_level_and_their_places_along() -> None:
    lines = (line([(0, 0), (30, 0)]), line([(60, 0), (90, 0)]), line([(0, 9), (90, 9)]))
    sets = find_sets(lines, (45, 0))
    assert sets.level.tolist() == [0, 0, 1]
    assert sets.advance.tolist() == [-30, 30, 0]
