"""What the needle does, taken apart."""

from dataclasses import replace

import numpy as np

from stitchpath.model.stitches import Op, Run, Stitches
from stitchpath.preview.trace import joined_traces, sewn_again, trace
from tests.support.lines import line, run
from tests.support.plans import quilt_stage

S, J, C, P = Op.STITCH, Op.JUMP, Op.CUT, Op.PAUSE


def stitches(*rows: tuple[float, Op]) -> Stitches:
    """Return rows along x."""
    return Stitches(
        xy=np.array([(x, 0.0) for x, _ in rows]).reshape(-1, 2),
        op=np.array([op for _, op in rows], dtype=np.uint8),
        tie=np.zeros(len(rows), dtype=np.bool_),
    )


TWO_RUNS = stitches(
    (0, J),
    (0, S),
    (0, P),
    (1, S),
    (5, J),
    (6, J),
    (6, S),
    (7, S),
    (7, C),
    (20, J),
    (20, S),
    (21, S),
)


def test_a_cut_ends_a_run_and_a_jump_ends_a_strand() -> None:
    taken = trace(TWO_RUNS)
    strands = [strand[:, 0].tolist() for strand in taken.strands]
    assert strands == [[0, 1], [6, 7], [20, 21]]
    assert taken.run_of.tolist() == [0, 0, 1]
    assert taken.numbers.tolist() == [1, 2]
    assert taken.first_points[:, 0].tolist() == [0, 20]
    assert taken.last_points[:, 0].tolist() == [7, 21]


def test_moves_are_told_apart_by_whether_the_thread_was_cut() -> None:
    taken = trace(TWO_RUNS)
    assert [hop[:, 0].tolist() for hop in taken.hops] == [[1, 5, 6, 6]]
    assert [travel[:, 0].tolist() for travel in taken.travels] == [[7, 7, 20, 20]]
    assert taken.cuts[:, 0].tolist() == [7]
    assert taken.pauses[:, 0].tolist() == [0]


def test_a_pause_does_not_part_a_strand() -> None:
    taken = trace(stitches((0, S), (0, P), (1, S)))
    assert len(taken.strands) == 1
    assert not len(taken.hops)


def test_what_comes_before_the_first_stitch_is_no_run() -> None:
    taken = trace(stitches((0, C), (3, J), (3, S), (4, S)))
    assert taken.numbers.tolist() == [1]
    assert not len(taken.travels)


def test_no_stitch_gives_an_empty_trace() -> None:
    taken = trace(stitches((0, J), (1, C)))
    assert not len(taken.strands)
    assert taken.first_points.shape == taken.last_points.shape == (0, 2)


def test_a_frame_moves_everything() -> None:
    taken = trace(TWO_RUNS, lambda points: points + np.array([100, 50]))
    assert taken.strands.points[0].tolist() == [100, 50]
    assert taken.cuts.tolist() == [[107, 50]]


def test_joined_hoopings_number_their_runs_anew() -> None:
    whole = joined_traces([trace(TWO_RUNS), trace(stitches((0, J))), trace(TWO_RUNS)])
    assert whole.numbers.tolist() == [1, 2, 1, 2]
    assert whole.run_of.tolist() == [0, 0, 1, 2, 2, 3]
    assert whole.first_points[:, 0].tolist() == [0, 20, 0, 20]
    assert whole.last_points[:, 0].tolist() == [7, 21, 7, 21]
    assert len(whole.cuts) == 2


def test_no_hooping_gives_an_empty_trace() -> None:
    nothing = joined_traces([])
    assert not len(nothing.strands)
    assert nothing.cuts.shape == nothing.pauses.shape == (0, 2)
    assert nothing.last_points.shape == (0, 2)


UNCUT = stitches((0, S), (1, S), (6, J), (6, S), (7, S), (20, J), (20, S), (21, S))


def test_runs_are_told_apart_by_where_they_start_if_the_machine_does_not_cut() -> None:
    """A hop lies within the first run; the second begins at 20 without a cut."""
    taken = trace(
        UNCUT, runs=(run([(0, 0), (1, 0)], [(6, 0), (7, 0)]), run([(20, 0), (21, 0)]))
    )
    assert taken.run_of.tolist() == [0, 0, 1]
    assert taken.first_points[:, 0].tolist() == [0, 20]
    assert len(taken.hops) == 2
    assert len(trace(UNCUT).numbers) == 1


def test_what_is_sewn_again_is_moved_into_the_frame() -> None:
    (hooping, *_) = quilt_stage("#2a6f77").hoopings
    once, twice = line([(0, 0), (9, 0)]), replace(line([(9, 0), (9, 5)]), again=True)
    sewn = replace(hooping, runs=(Run(lines=(once, twice)),))
    (again,) = sewn_again([sewn], lambda points: points + 100)
    assert again.tolist() == [[109, 100], [109, 105]]
    assert len(sewn_again([hooping])) == 0
