"""The fewest walks that sew everything once, straight on where lines cross."""

import numpy as np
import pytest

from stitchpath.model.line import Line
from stitchpath.route.graph import line_graph
from stitchpath.route.legs import Leg, Trail
from stitchpath.route.trails import find_trails
from stitchpath.route.walk import Walk, walk_of
from tests.support.lines import assert_same_line, line

SQUARE = [(0, 0), (60, 0), (60, 60), (0, 60), (0, 0)]


def _walks(*lines: Line, late: list[int] | None = None) -> list[Walk]:
    graph = line_graph(lines)
    places = None if late is None else np.array(late)
    return [walk_of(graph, trail) for trail in find_trails(graph, late=places)]


def _way(walk: Walk) -> list[tuple[float, float]]:
    points = [walk.lines[0].points[:1], *(one.points[1:] for one in walk.lines)]
    return [(x, y) for x, y in np.concatenate(points).tolist()]


def test_lines_that_cross_go_straight_on() -> None:
    lines = [line([(x, 0), (x, 90)]) for x in (20, 40)]
    lines += [line([(0, y), (90, y)]) for y in (20, 40)]
    walks = _walks(*lines)
    assert len(walks) == 4
    assert all(
        walk.lines[0].points.tolist() == one.points.tolist()
        for walk, one in zip(walks, lines, strict=True)
    )


def test_of_three_ends_the_straightest_two_go_on() -> None:
    ahead = line([(0, 0), (50, 0)])
    walks = _walks(ahead, line([(50, 0), (80, 40)]), line([(50, 0), (90, 2)]))
    assert sorted(map(_way, walks)) == [
        [(0, 0), (50, 0), (90, 2)],
        [(50, 0), (80, 40)],
    ]


def test_a_star_of_four_is_sewn_in_two_straight_runs() -> None:
    arms = [(50, 0), (0, 50), (-50, 0), (0, -50)]
    walks = _walks(*(line([(0, 0), arm]) for arm in arms))
    assert {frozenset(_way(walk)) for walk in walks} == {
        frozenset([(-50, 0), (0, 0), (50, 0)]),
        frozenset([(0, -50), (0, 0), (0, 50)]),
    }


def test_a_ring_alone_is_one_run() -> None:
    (walk,) = _walks(line(SQUARE))
    assert _way(walk) == SQUARE


def test_a_ring_is_let_in_at_the_end_of_a_line_before_its_middle() -> None:
    """The level line only crosses the ring, the slanting one ends on it."""
    crossing, ending = line([(-9, 30), (99, 30)]), line([(60, 10), (90, 40)])
    walks = _walks(line(SQUARE), crossing, ending)
    assert len(walks) == 2
    assert _way(walks[0]) == [(-9, 30), (99, 30)]
    assert _way(walks[1])[0] == _way(walks[1])[-2] == (60, 10)


def test_a_ring_goes_with_the_line_that_is_sewn_last() -> None:
    lines = [line([(0, y), (60, y)]) for y in (10, 20, 30)]
    walks = _walks(*lines, line(SQUARE), late=[0, 2, 1, -1])
    assert [len(walk.lines) for walk in walks].count(1) == 2
    (longer,) = (walk for walk in walks if len(walk.lines) > 1)
    assert lines[1].points.tolist()[0] in longer.ends.tolist()


def test_a_ring_is_not_let_into_an_anchor_where_another_will_do() -> None:
    anchor = line([(0, 10), (60, 10)], anchor=True)
    walks = _walks(anchor, line([(0, 20), (60, 20)]), line(SQUARE))
    assert [any(one.anchor for one in walk.lines) for walk in walks] == [True, False]
    assert len(walks[0].lines) == 1


def test_a_ring_that_only_crosses_is_let_in_where_it_crosses() -> None:
    (walk,) = _walks(line([(-20, 30), (99, 30)]), line(SQUARE))
    way = _way(walk)
    assert (way[0], way[-1]) == ((-20, 30), (99, 30))
    assert way.count((60, 30)) == 2  # turns off there and comes back


def test_rings_that_touch_are_one_run_that_goes_straight_on_where_they_touch() -> None:
    """Two rings on one another's corner: along both sides of the corner, not back."""
    angle = np.linspace(0, 2 * np.pi, 41)
    ring = np.column_stack([np.cos(angle), np.sin(angle)]) * 20
    ring[-1] = ring[0]
    other = ring[::-1] * (-1, 1) + (40, 0)  # starts at the touch, the other way round
    (walk,) = _walks(line(ring), line(other))
    heads = [one.points[1] - one.points[0] for one in walk.lines]
    tails = [one.points[-1] - one.points[-2] for one in walk.lines]
    assert len(walk.lines) == 2
    assert heads[1] @ tails[0] > 0


def test_rings_inside_a_chain_are_one_run() -> None:
    rings = [line(np.add(SQUARE, (40 * step, 7 * step))) for step in range(5)]
    assert len(_walks(*rings)) == 1


def test_a_leg_sewn_again_joins_two_ends_and_one_at_an_end_is_left_off() -> None:
    graph = line_graph(
        (line([(0, 0), (0, 50)]), line([(20, 0), (20, 50)]), line([(0, 50), (20, 50)]))
    )
    assert graph.least_runs == 1
    ladder = line_graph(
        (line([(0, 0), (0, 50)]), line([(20, 0), (20, 50)]), line([(0, 20), (20, 20)]))
    )
    rung = Leg(line=2, start=0.0, end=20.0, nodes=tuple(ladder.nodes[2].tolist()), again=True)
    assert len(find_trails(ladder)) == 3
    assert len(find_trails(ladder, [rung])) == 2
    foot = tuple(ladder.nodes[0][:2].tolist())
    stub = Leg(line=0, start=0.0, end=20.0, nodes=foot, again=True)
    trails = find_trails(ladder, [stub])
    assert not any(trail[side].again for trail in trails for side in (0, -1))


def test_a_closed_walk_with_a_leg_sewn_again_does_not_claim_that_legs_line() -> None:
    """Once it did, and another closed walk then looked for the line in the wrong walk."""
    post = line([(30, -40), (30, 20)])
    graph = line_graph((line(SQUARE), post, line(np.divide(SQUARE, 3) + 20)))
    legs = [
        Leg(line=1, start=0.0, end=40.0, nodes=tuple(graph.nodes[1][:2].tolist()), again=True)
    ]
    sewn = [leg for trail in find_trails(graph, legs) for leg in trail if not leg.again]
    assert sum(abs(leg.end - leg.start) for leg in sewn) == pytest.approx(240 + 60 + 80)


def test_parts_of_a_line_that_follow_on_one_another_are_one_line_again() -> None:
    graph = line_graph((line([(0, 0), (60, 0)]), line([(30, -9), (30, 9)])))
    first, middle, last = graph.nodes[0].tolist()
    trail: Trail = [
        Leg(line=0, start=0.0, end=30.0, nodes=(first, middle)),
        Leg(line=0, start=30.0, end=60.0, nodes=(middle, last)),
        Leg(line=0, start=60.0, end=30.0, nodes=(last, middle), again=True),
    ]
    walk = walk_of(graph, trail)
    assert [one.again for one in walk.lines] == [False, True]
    assert_same_line(walk.lines[0].points, [(0, 0), (60, 0)])
    assert_same_line(walk.lines[1].points, [(60, 0), (30, 0)])
    assert walk.sources == (0, 0)


def test_a_walk_reversed_keeps_its_lines_and_turns_them() -> None:
    (walk,) = _walks(line([(0, 0), (9, 0)]), line([(9, 0), (9, 9)]))
    back = walk.reversed
    assert _way(back) == _way(walk)[::-1]
    assert back.nodes == walk.nodes[::-1]
    assert back.then(None) is back


def test_parts_begin_exactly_where_the_line_before_ends() -> None:
    (walk,) = _walks(line([(0, 0), (9, 0)]), line([(9 + 4e-7, 3e-7), (9, 9)]))
    assert (walk.lines[0].points[-1] == walk.lines[1].points[0]).all()


def test_what_is_sewn_again_has_the_stitch_of_the_line_before_it() -> None:
    """Else there would be ties between them."""
    edge = line([(0, 0), (60, 0)], stitch_mm=3.0)
    graph = line_graph((edge, line([(20, 0), (20, 50)], stitch_mm=2.0)))
    down = Leg(line=1, start=50.0, end=0.0, nodes=tuple(graph.nodes[1][::-1].tolist()))
    along = Leg(
        line=0, start=20.0, end=60.0, nodes=tuple(graph.nodes[0][1:].tolist()), again=True
    )
    assert [one.stitch_mm for one in walk_of(graph, [down, along]).lines] == [2.0, 2.0]
    both = walk_of(graph, [down]).then(walk_of(graph, [along]))
    assert [one.stitch_mm for one in both.lines] == [2.0, 2.0]
