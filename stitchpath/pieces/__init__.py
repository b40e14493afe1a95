"""Pieces: finished outlines, edge, mouth and seam lines, and what each stage has to sew."""

from stitchpath.pieces.corner import Hand, corner_path
from stitchpath.pieces.tasks import make_corner_task, make_tasks

__all__ = ["Hand", "corner_path", "make_corner_task", "make_tasks"]
