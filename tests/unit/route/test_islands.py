"""Islands: runs with a stretch inside a loop that runs before them closed."""

from itertools import pairwise

import numpy as np

from stitchpath.model.stitches import Run
from stitchpath.route.graph import line_graph
from stitchpath.route.islands import count_islands
from stitchpath.route.legs import whole_leg
from tests.support.lines import line, run

RING = [(0, 0), (90, 0), (90, 90), (0, 90), (0, 0)]
UPRIGHT = [[(x, 0), (x, 90)] for x in (20, 40, 60)]
LEVEL = [[(0, y), (90, y)] for y in (20, 40, 60)]


def _islands(runs: tuple[Run, ...]) -> int:
    graph = line_graph(tuple(line for run in runs for line in run.lines))
    firsts = np.cumsum([0, *(len(run.lines) for run in runs)]).tolist()
    sewn = [[whole_leg(graph, own) for own in range(*bounds)] for bounds in pairwise(firsts)]
    return count_islands(graph, sewn)


def test_a_ring_closed_before_the_line_inside_it_makes_an_island() -> None:
    assert _islands((run(RING), run([(10, 10), (80, 80)]))) == 1


def test_the_line_before_the_ring_makes_none() -> None:
    assert _islands((run([(10, 10), (80, 80)]), run(RING))) == 0


def test_a_line_that_touches_the_ring_from_inside_is_closed_in_and_from_outside_is_not() -> (
    None
):
    assert _islands((run(RING), run([(0, 10), (80, 80)]))) == 1
    assert _islands((run(RING), run([(90, 10), (130, 10)]))) == 0


def test_a_line_that_leads_out_of_the_ring_is_closed_in_as_far_as_it_is_inside() -> None:
    assert _islands((run(RING), run([(45, 45), (130, 45)]))) == 1


def test_a_run_is_not_closed_in_by_itself() -> None:
    assert _islands((run(RING, [(0, 0), (45, 45)]),)) == 0


def test_a_ring_inside_a_ring_counts_though_they_do_not_meet() -> None:
    inner = [(30, 30), (60, 30), (60, 60), (30, 60), (30, 30)]
    assert _islands((run(RING), run(inner))) == 1
    assert _islands((run(inner), run(RING))) == 0


def test_crosshatch_one_set_after_the_other_from_the_middle_out_has_none() -> None:
    runs = [run(UPRIGHT[index]) for index in (1, 2, 0)]
    runs += [run(LEVEL[index]) for index in (1, 2, 0)]
    assert _islands(tuple(runs)) == 0


def test_crosshatch_shuffled_closes_squares_round_what_is_not_sewn() -> None:
    """Outer lines first: the middle ones then go through closed squares."""
    runs = [run(UPRIGHT[0]), run(UPRIGHT[2]), run(LEVEL[0]), run(LEVEL[2])]
    runs += [run(UPRIGHT[1]), run(LEVEL[1])]
    assert _islands(tuple(runs)) == 2


def test_horizontals_out_of_turn_close_a_strip() -> None:
    runs = [run(line) for line in UPRIGHT]
    runs += [run(LEVEL[0]), run(LEVEL[2]), run(LEVEL[1])]
    assert _islands(tuple(runs)) == 1


def test_what_is_sewn_again_counts_from_the_first_time_on() -> None:
    """Three sides, then the fourth on the way to another line: the loop is closed then."""
    fourth = line([(0, 90), (0, 0)])
    sides = run([(0, 0), (90, 0), (90, 90), (0, 90)], [(0, 90), (0, 0)])
    inside, later = run([(10, 10), (80, 80)]), run(fourth)
    assert _islands((sides, inside, later)) == 1


def test_single_lines_close_nothing() -> None:
    assert _islands((run([(0, 0), (9, 0)]), run([(4, -3), (4, 3)]))) == 0
