"""Layouts: rules that make quilting lines. One file each; the listing is the feature list."""

from typing import TYPE_CHECKING

from stitchpath.listing import offers

if TYPE_CHECKING:
    from stitchpath.layouts._copies import count_copies, place_copies
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
    "place_copies",
    "place_drawing",
]

__getattr__ = offers(
    __name__,
    {
        "FEWEST_STITCHES": "_lay",
        "area_of": "_grounds",
        "count_copies": "_copies",
        "find_layout": "_registry",
        "lacking_characters": "_font",
        "lay_lines": "_lay",
        "lay_text": "text",
        "layout_names": "_registry",
        "motif_step": "motif",
        "place_copies": "_copies",
        "place_drawing": "_grounds",
    },
)
