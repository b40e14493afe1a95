"""Sewing: runs into needle points, ties, cuts and pauses."""

from stitchpath.sewing.baste import baste
from stitchpath.sewing.from_file import count_designs
from stitchpath.sewing.resample import resampled
from stitchpath.sewing.sew import sew

__all__ = ["baste", "count_designs", "resampled", "sew"]
