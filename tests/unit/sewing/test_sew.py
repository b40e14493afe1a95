"""What the needle does in a hooping, op by op."""

from itertools import groupby

import numpy as np
import pytest

from stitchpath.model.line import LineKind
from stitchpath.model.machine import Machine
from stitchpath.model.stitches import Op, Run, Stitches
from stitchpath.sewing import sew
from tests.support.lines import assert_same_line, line, run

TWO = (run([(0, 0), (10, 0)]), run([(0, 50), (10, 50)]))


def _ops(stitches: Stitches) -> list[tuple[Op, int]]:
    """Return the ops in order, and how often each follows on itself."""
    return [(Op(op), len(list(same))) for op, same in groupby(stitches.op.tolist())]


def test_a_run_is_a_move_and_stitches() -> None:
    """10 mm at 2.5: five needle points, and three of each tie."""
    assert _ops(sew(TWO[:1], Machine(), draws_up=False)) == [(Op.JUMP, 1), (Op.STITCH, 11)]


def test_between_runs_the_thread_is_cut_before_the_move() -> None:
    stitches = sew(TWO, Machine(), draws_up=False)
    assert _ops(stitches) == [
        (Op.JUMP, 1),
        (Op.STITCH, 11),
        (Op.CUT, 1),
        (Op.JUMP, 1),
        (Op.STITCH, 11),
    ]
    assert stitches.xy[11:14].tolist() == [[10, 0], [10, 0], [0, 50]]


def test_a_machine_that_does_not_cut_gets_no_cuts() -> None:
    stitches = sew(TWO, Machine(cuts_thread=False), draws_up=False)
    assert Op.CUT not in stitches.op
    assert (stitches.op == Op.JUMP).sum() == 2


@pytest.mark.parametrize("cuts", [True, False])
def test_drawing_up_is_one_stitch_and_one_pause_at_the_start_of_each_run(cuts: bool) -> None:
    stitches = sew(TWO, Machine(cuts_thread=cuts), draws_up=True)
    pauses = np.flatnonzero(stitches.op == Op.PAUSE)
    jumps = np.flatnonzero(stitches.op == Op.JUMP)
    assert pauses.tolist() == (jumps + 2).tolist()
    assert (stitches.op[jumps + 1] == Op.STITCH).all()
    assert (stitches.xy[pauses] == stitches.xy[jumps + 1]).all()


def test_a_hop_within_a_run_leaves_the_thread_uncut_and_does_not_pause() -> None:
    hop = run([(0, 0), (10, 0)], [(13, 0), (23, 0)])
    stitches = sew((hop,), Machine(), draws_up=True)
    assert [op for op, _ in _ops(stitches)] == [
        Op.JUMP, Op.STITCH, Op.PAUSE, Op.STITCH, Op.JUMP, Op.STITCH,
    ]  # fmt: skip
    assert Op.CUT not in stitches.op


def test_lines_that_meet_are_sewn_on_without_a_tie_between() -> None:
    stitches = sew((run([(0, 0), (10, 0)], [(10, 0), (10, 10)]),), Machine(), draws_up=False)
    assert _ops(stitches) == [(Op.JUMP, 1), (Op.STITCH, 3 + 9 + 3)]
    assert stitches.needle_points[7].tolist() == [10, 0]


def test_where_the_stitch_changes_a_new_path_begins() -> None:
    first = line([(0, 0), (10, 0)], stitch_mm=2.5, kind=LineKind.SEAM)
    second = line([(10, 0), (10, 9)], stitch_mm=3.0, kind=LineKind.SEAM)
    stitches = sew((Run(lines=(first, second)),), Machine(), draws_up=False)
    assert (stitches.op == Op.JUMP).sum() == 2


def test_points_of_a_line_that_lie_on_one_another_are_one() -> None:
    doubled = run([(0, 0), (5, 0), (5, 0), (5, 5), (5, 5 + 1e-8)])
    stitches = sew((doubled,), Machine(), draws_up=False)
    assert stitches.sewn_lengths.min() > 0.1
    assert stitches.needle_points[-1].tolist() == [5, 5 + 1e-8]


def test_stitches_stay_within_the_machines_limits_with_room_for_rounding() -> None:
    machine = Machine(shortest_stitch=2.0, longest_stitch=4.6)
    stitches = sew((run([(0, 0), (31, 0), (31, 9.3)], stitch_mm=4.6),), machine, draws_up=False)
    plain = stitches.sewn_lengths[~stitches.tie[stitches.stitch_rows[:, 1]]]
    assert plain.min() >= 2.15
    assert stitches.sewn_lengths.max() <= 4.45


def test_many_runs_are_laid_out_as_one_after_another() -> None:
    """Rows of each run are those of the run alone, with a cut between."""
    runs = tuple(run([(0, y), (7.0 + y, y), (20, y + 3.0)]) for y in (0.0, 11.0, 23.0))
    together = sew(runs, Machine(), draws_up=True)
    alone = [sew((one,), Machine(), draws_up=True) for one in runs]
    kept = together.op != Op.CUT
    assert_same_line(together.xy[kept], np.concatenate([one.xy for one in alone]))
    np.testing.assert_array_equal(together.op[kept], np.concatenate([one.op for one in alone]))
    np.testing.assert_array_equal(
        together.tie[kept], np.concatenate([one.tie for one in alone])
    )


@pytest.mark.parametrize("beside", [0.02, 0.05])
def test_a_corner_just_beside_a_joint_is_left_out(beside: float) -> None:
    """Two holes there would be one in a file; the way moves by no more than 0.05 mm."""
    joint, corner = (20.0, beside), (20.0, 0.0)
    for way in (
        [[(20 - 15, 15 + beside), joint], [joint, corner, (0, 0)]],
        [[(0, 0), corner, joint], [joint, (5, 15 + beside)]],
    ):
        stitches = sew((run(*way),), Machine(), draws_up=False)
        assert stitches.sewn_lengths.min() > 0.3
        assert np.hypot(*(stitches.xy - joint).T).min() < 1e-6
        assert np.hypot(*(stitches.xy - corner).T).min() > beside / 2


def test_a_corner_further_off_is_kept() -> None:
    joint, corner = (20.0, 1.5), (20.0, 0.0)
    stitches = sew(
        (run([(5, 16.5), joint], [joint, corner, (0, 0)]),), Machine(), draws_up=False
    )
    assert np.hypot(*(stitches.xy - corner).T).min() < 1e-6
