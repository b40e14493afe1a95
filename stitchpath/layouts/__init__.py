"""Layouts: rules that make quilting lines. One file each; the listing is the feature list."""

from stitchpath.layouts._copies import count_copies
from stitchpath.layouts._font import lacking_characters
from stitchpath.layouts._grounds import area_of, place_drawing
from stitchpath.layouts._lay import FEWEST_STITCHES, lay_lines
from stitchpath.layouts._registry import find_layout, layout_names
from stitchpath.layouts.motif import motif_step
from stitchpath.layouts.text import lay_text

__all__ = [
    "FEWEST_STITCHES",
    "area_of",
    "count_copies",
    "find_layout",
    "lacking_characters",
    "lay_lines",
    "lay_text",
    "layout_names",
    "motif_step",
    "place_drawing",
]
