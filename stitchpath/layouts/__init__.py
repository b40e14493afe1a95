"""Layouts: rules that make quilting lines. One file each; the listing is the feature list."""

from stitchpath.layouts._lay import lay_lines
from stitchpath.layouts._registry import find_layout, layout_names

__all__ = ["find_layout", "lay_lines", "layout_names"]
