"""Walks that run every way: least travel, but inside out where a loop would close some in."""

import numpy as np
import pytest

from stitchpath.model.line import Line
from stitchpath.route.enclosure import _beside_outside, _Faces, _rounds, inside_out
from stitchpath.route.graph import line_graph
from stitchpath.route.trails import find_trails
from stitchpath.route.walk import Walk, walk_of
from tests.support.lines import line

FAR = np.array([200.0, 0.0])


def _ring(reach: float, x: float = 0.0) -> Line:
    r = reach
    return line([(x - r, -r), (x + r, -r), (x + r, r), (x - r, r), (x - r, -r)])


def _walk(one: Line) -> Walk:
    graph = line_graph((one,))
    (trail,) = find_trails(graph)
    return walk_of(graph, trail)


def _order(*lines: Line, before: tuple[Line, ...] = ()) -> list[int]:
    walks = [_walk(one) for one in lines]
    found = inside_out([_walk(one) for one in before], walks, start=FAR)
    return [index for index, _ in found]


def test_least_travel_is_kept_where_nothing_is_closed_in() -> None:
    assert _order(_ring(10), _ring(10, x=40), _ring(10, x=80)) == [2, 1, 0]


def test_rings_within_rings_are_sewn_inside_out() -> None:
    assert _order(_ring(40), _ring(20), _ring(10), _ring(30)) == [2, 1, 3, 0]


def test_least_travel_is_kept_where_all_is_closed_in_anyway() -> None:
    assert _order(_ring(10), _ring(10, x=40), before=(_ring(90),)) == [1, 0]


def test_what_cannot_be_avoided_does_not_close_in_what_can() -> None:
    """Two rings that cross close a part of each other in; the small one lies in the first."""
    order = _order(_ring(40), _ring(40, x=30), _ring(5, x=-20))
    assert order.index(2) < order.index(0)


def test_one_walk_is_sewn_as_it_is() -> None:
    assert _order(_ring(40)) == [0]


def _rounds_looking_at_all(sides: list[list[tuple[int, int]]]) -> list[list[int]]:
    """Return rounds as they are defined: every walk that is left is looked at in each."""
    faces, left = _Faces(sides=sides), list(range(len(sides)))
    rounds: list[list[int]] = []
    while left:
        gone = [walk for walk in left if not faces.closes_in(walk)]
        gone = gone or [max(left, key=lambda walk: _beside_outside(faces, walk))]
        for walk in gone:
            faces.take_away(walk)
        rounds.append(gone)
        left = [walk for walk in left if walk not in gone]
    return rounds[::-1]


def test_rounds_are_the_same_when_only_changed_walks_are_looked_at() -> None:
    chance = np.random.default_rng(3)
    for _ in range(300):
        walks, faces = chance.integers(1, 25), chance.integers(2, 30)
        counts = chance.integers(0, 9, walks)
        sides = [
            [(int(one), int(other)) for one, other in chance.integers(0, faces, (count, 2))]
            for count in counts
        ]
        assert _rounds(sides) == _rounds_looking_at_all(sides)


def test_walks_are_looked_at_only_when_a_face_beside_them_opens(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """Rings within rings: each of 200 is looked at once closed, and once when it is next."""
    looked: list[int] = []
    real = _Faces.closes_in

    def closes_in(faces: _Faces, walk: int) -> bool:
        looked.append(walk)
        return real(faces, walk)

    monkeypatch.setattr(_Faces, "closes_in", closes_in)
    assert _rounds([[(ring, ring + 1)] for ring in range(200)])[0] == [199]
    assert len(looked) < 2 * 200
