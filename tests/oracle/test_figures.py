"""Counts, thread and time against plain loops over the rows of random stitches."""

from math import hypot, sqrt

import pytest
from hypothesis import given

from stitchpath.estimate import count_stitches
from stitchpath.model.hooping import Hooping
from stitchpath.model.machine import Machine
from stitchpath.model.stitches import Op, Stitches
from tests.support.stitch_sets import sewn_hoopings

THICKNESS_MM = 3.0


@given(sewn=sewn_hoopings())
def test_figures_are_those_of_a_plain_loop(sewn: tuple[Stitches, Hooping]) -> None:
    stitches, _ = sewn
    count = dict.fromkeys(Op, 0)
    moves, thread = 0, 0.0
    needle_seconds, since_start = 0.0, 0
    needle: tuple[float, float] | None = None
    before, last = None, (0.0, 0.0)
    for (x, y), op in zip(stitches.xy.tolist(), stitches.op.tolist(), strict=True):
        count[Op(op)] += 1
        if op == Op.STITCH:
            step = hypot(x - last[0], y - last[1]) if before == Op.STITCH else 0.0
            since_start = since_start + 1 if before == Op.STITCH else 0
            turn = max(60 / 500, 4 * sqrt(step / 7100))  # the frame moves half of a turn
            needle_seconds += turn * (2 if since_start < 8 else 1)
            if needle is not None:
                thread += hypot(x - needle[0], y - needle[1]) + THICKNESS_MM
            needle = (x, y)
        if op == Op.JUMP:
            needle = None
            moves += before != Op.JUMP
        before, last = op, (x, y)
    figures = count_stitches(
        stitches, Machine(speed=500.0), runs=count[Op.CUT] + 1, thickness_mm=THICKNESS_MM
    )
    assert figures.stitches == count[Op.STITCH]
    assert (figures.thread_cuts, figures.pauses) == (count[Op.CUT], count[Op.PAUSE])
    assert figures.jumps == moves
    assert figures.top_thread_mm == pytest.approx(thread)
    expected = needle_seconds + 5 * count[Op.CUT] + 20 * count[Op.PAUSE]
    assert figures.seconds == pytest.approx(expected)
