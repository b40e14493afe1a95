"""Orders of sets that differ in which come last where they cross."""

import numpy as np

from stitchpath.model.line import Line
from stitchpath.route.graph import line_graph
from stitchpath.route.set_orders import MOST_SETS, set_orders
from stitchpath.route.sets import find_sets
from tests.support.lines import line


def _orders(lines: list[Line]) -> list[list[int]]:
    """Return the place of each line's set, for every order."""
    own = tuple(lines)
    sets = find_sets(own, (0.0, 0.0))
    return [order.number.tolist() for order in set_orders(line_graph(own), sets)]


def _ray(degrees: float, *, reach: float = 50) -> Line:
    way = reach * np.array([np.cos(np.radians(degrees)), np.sin(np.radians(degrees))])
    return line([-way, way])


def test_of_two_sets_that_cross_either_may_come_last() -> None:
    assert _orders([_ray(0), _ray(90)]) == [[1, 0]]


def test_sets_that_do_not_cross_have_one_order() -> None:
    assert _orders([line([(0, 0), (9, 0)]), line([(20, 0), (20, 9)])]) == []


def test_each_of_three_that_cross_may_come_last_the_others_stay_in_order() -> None:
    assert _orders([_ray(0), _ray(60), _ray(120)]) == [[2, 0, 1], [0, 2, 1]]


def test_sets_apart_come_last_together() -> None:
    """A long line crosses two short ones that do not meet: it first, then both."""
    short = [line([(-40, -9), (-40, 9)]), line([(30, -9), (50, 9)])]
    assert _orders([*short, _ray(0)]) == [[1, 2, 0]]


def test_lines_that_run_every_way_stay_without_a_set() -> None:
    hook = line([(-9, 20), (9, 20), (9, 30), (-9, 30), (-9, 25)])
    assert _orders([_ray(0), hook, _ray(90)]) == [[1, -1, 0]]


def test_of_many_sets_only_the_given_order_is_taken() -> None:
    degrees = np.arange(MOST_SETS + 1) * 15.0
    assert _orders([_ray(each) for each in degrees]) == []
    assert len(_orders([_ray(each) for each in degrees[:-1]])) == MOST_SETS - 1
