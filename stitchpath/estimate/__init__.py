"""Estimates: cloth, batting, folds, hours, thread and bobbins. One file each."""

from stitchpath.estimate.bobbins import bobbins_for, count_bobbins
from stitchpath.estimate.cutting import cut_list
from stitchpath.estimate.estimate import estimate_plan
from stitchpath.estimate.figures import count_stitches
from stitchpath.estimate.join_miss import expect_misses
from stitchpath.estimate.sewing_time import timed_factor
from stitchpath.estimate.work import plan_sessions

__all__ = [
    "bobbins_for",
    "count_bobbins",
    "count_stitches",
    "cut_list",
    "estimate_plan",
    "expect_misses",
    "plan_sessions",
    "timed_factor",
]
