"""The booklet: one HTML file to read beside the machine, and to watch."""

from stitchpath.preview.booklet.page import draw_booklet

__all__ = ["draw_booklet"]
