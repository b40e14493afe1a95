"""Counts a hooping's stitches and estimates its time and thread.

Formula. A lockstitch of length L through a sandwich of thickness t takes L + t of each thread,
since both go along the stitch and meet half way through: per inch of seam 2 + 2TS for both,
with T in inches and S stitches to the inch. Time: see sewing_time.

Source: docs/sources.md, thread.

Limits: real stitches are rounder, so this is an upper bound; waste and tails are not in it.
There is no zigzag here, so L is the way from needle point to needle point.
"""

from dataclasses import replace

import numpy as np

from stitchpath.estimate.sewing_time import sewing_seconds, stop_seconds
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Figures
from stitchpath.model.stitches import Op, Stitches
from stitchpath.model.supplies import Times

_TIMES = Times()


def count_stitches(
    stitches: Stitches,
    machine: Machine,
    times: Times = _TIMES,
    *,
    runs: int,
    thickness_mm: float,
) -> Figures:
    """Return what one hooping comes to.

    Args:
        stitches: What the needle does; jumps in a row are one move.
        machine: Its speed, and whether it cuts thread.
        times: How long things take; left out, the defaults of a project.
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
    figures = Figures(
        stitches=needle_points,
        runs=runs,
        thread_cuts=cuts,
        snips=snips,
        jumps=jumps,
        pauses=pauses,
        top_thread_mm=thread_mm,
        bobbin_thread_mm=thread_mm,
    )
    seconds = sewing_seconds(stitches, machine, times) + stop_seconds(figures, times)
    return replace(figures, seconds=seconds)
