"""Sewing: runs into needle points, ties, cuts and pauses."""

from stitchpath.sewing.sew import sew

__all__ = ["sew"]
