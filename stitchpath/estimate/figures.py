"""Counts a hooping's stitches and estimates its time and thread.

Time: needle points over the machine's speed, and a fixed time for each cut and pause. Thread: a
lockstitch of length L through a sandwich of thickness t takes L + t of each thread, since both
go along the stitch and meet half way through (per inch of seam 2 + 2TS for both threads, with
T in inches and S stitches to the inch; see docs/sources.md). Real stitches are rounder, so this
is an upper bound; waste and tails are not in it.
"""

import numpy as np

from stitchpath.catalog.times import CUT_SECONDS, PAUSE_SECONDS, SNIP_SECONDS
from stitchpath.model.plan import Figures
from stitchpath.model.project import Machine
from stitchpath.model.stitches import Op, Stitches


def count_stitches(
    stitches: Stitches, machine: Machine, *, runs: int, thickness_mm: float
) -> Figures:
    """Return what one hooping comes to.

    Args:
        stitches: What the needle does; jumps in a row are one move.
        machine: Its speed, and whether it cuts thread.
        runs: Stretches sewn without cutting the thread.
        thickness_mm: Of what the needle goes through.
    """
    counts = np.bincount(stitches.op, minlength=len(Op))
    needle_points = int(counts[Op.STITCH])
    cuts, pauses = int(counts[Op.CUT]), int(counts[Op.PAUSE])
    snips = 0 if machine.cuts_thread else runs - 1
    is_jump = stitches.op == Op.JUMP
    jumps = int(np.count_nonzero(is_jump[1:] & ~is_jump[:-1])) + int(is_jump[:1].sum())
    lengths = stitches.sewn_lengths
    thread_mm = float(lengths.sum()) + thickness_mm * len(lengths)
    return Figures(
        stitches=needle_points,
        runs=runs,
        thread_cuts=cuts,
        snips=snips,
        jumps=jumps,
        pauses=pauses,
        seconds=needle_points / machine.speed * 60
        + cuts * CUT_SECONDS
        + snips * SNIP_SECONDS
        + pauses * PAUSE_SECONDS,
        top_thread_mm=thread_mm,
        bobbin_thread_mm=thread_mm,
    )
