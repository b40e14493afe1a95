"""Short texts in a drawing: numbers and letters on white chips that keep lines away."""

from collections.abc import Sequence
from dataclasses import dataclass

from stitchpath.preview.colours import PAGE
from stitchpath.preview.labels import Box, text_width
from stitchpath.preview.marks import boxes
from stitchpath.preview.svg import Layer, Pen, add_lines, add_texts


@dataclass(frozen=True, slots=True, kw_only=True)
class Tag:
    """A short text and the box that it fills."""

    words: str
    where: Box


def tag_extent(words: str, size: float) -> tuple[float, float]:
    """Return the width and height that a tag takes up, mm."""
    return text_width(words, size), 0.86 * size


def tag_at(words: str, at: tuple[float, float], size: float) -> Tag:
    """Return a tag with its middle at a point."""
    (x, y), (width, height) = at, tag_extent(words, size)
    where = (x - width / 2, y - height / 2, x + width / 2, y + height / 2)
    return Tag(words=words, where=where)


def draw_tags(layer: Layer, tags: Sequence[Tag], *, size: float, colour: str) -> None:
    """Draw short texts in the middle of their boxes."""
    chips = boxes([tag.where for tag in tags])
    add_lines(layer, chips, Pen(fill=PAGE), closed=True)
    drop = 0.36 * size  # figures are about 0.72 of the size high
    lines = [
        (
            tag.words,
            ((tag.where[0] + tag.where[2]) / 2, (tag.where[1] + tag.where[3]) / 2 + drop),
        )
        for tag in tags
    ]
    add_texts(layer, lines, size, fill=colour, text_anchor="middle")
