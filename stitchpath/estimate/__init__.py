"""Estimates: stitches, minutes, thread, bobbins, and what to cut."""

from stitchpath.estimate.bobbins import count_bobbins
from stitchpath.estimate.cutting import cut_list
from stitchpath.estimate.figures import count_stitches
from stitchpath.estimate.join_miss import expect_misses

__all__ = ["count_bobbins", "count_stitches", "cut_list", "expect_misses"]
