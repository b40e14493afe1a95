"""Short texts in a drawing: numbers and letters with a halo, so that lines under them stop."""

from stitchpath.preview.colours import CLOTH
from stitchpath.preview.labels import Box, text_width
from stitchpath.preview.svg import Layer, add_text, tidy


def tag_extent(words: str, size: float) -> tuple[float, float]:
    """Return the width and height that a tag takes up, mm."""
    return text_width(words, size), 0.9 * size


def box_around(at: tuple[float, float], extent: tuple[float, float]) -> Box:
    """Return the box of a given width and height around a point."""
    (x, y), (width, height) = at, extent
    return x - width / 2, y - height / 2, x + width / 2, y + height / 2


def draw_tag(layer: Layer, words: str, where: Box, *, size: float, colour: str) -> None:
    """Draw a short text in the middle of a box."""
    x0, y0, x1, y1 = where
    at = (x0 + x1) / 2, (y0 + y1) / 2 + 0.36 * size  # figures are about 0.72 of the size high
    halo = tidy(0.3 * size)
    add_text(
        layer,
        words,
        at,
        size,
        text_anchor="middle",
        stroke=CLOTH,
        stroke_width=halo,
        fill=CLOTH,
    )
    add_text(layer, words, at, size, text_anchor="middle", fill=colour)
