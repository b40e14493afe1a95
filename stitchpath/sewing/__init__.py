"""Sewing: runs into needle points, ties, cuts and pauses."""

from stitchpath.sewing.baste import baste
from stitchpath.sewing.sew import sew

__all__ = ["baste", "sew"]
