"""A legend that explains every mark of a picture, with samples drawn by the same strokes."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Final, TypeAlias

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.preview import strokes
from stitchpath.preview.colours import INK
from stitchpath.preview.labels import wrapped
from stitchpath.preview.look import Look
from stitchpath.preview.marks import box
from stitchpath.preview.polylines import Polylines
from stitchpath.preview.ramp import order_colours
from stitchpath.preview.svg import Drawing, Layer, add_layer, add_texts, group, tidy

Sample: TypeAlias = Callable[[Layer, float, float, Look], None]
"""Draws a mark into a layer, around the middle x, y, in a look."""

SAMPLE_WIDTH: Final = 4.4
TEXT_WIDTH: Final = 17.0
"""Of a column, as shares of the text's height; one more lies between sample and text."""
COLUMN: Final = SAMPLE_WIDTH + 1.0 + TEXT_WIDTH + 1.5
_ROW: Final = 1.75
_NEXT_LINE: Final = 1.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """What a mark means, and the mark."""

    text: str
    sample: Sample


def legend_height(entries: Sequence[Entry], *, text: float, columns: int) -> float:
    """Return how high a legend is, mm."""
    return max(map(sum, _heights_by_column(entries, text, columns)), default=0.0)


def draw_legend(
    drawing: Drawing,
    at: tuple[float, float],
    entries: Sequence[Entry],
    look: Look,
    *,
    columns: int,
) -> None:
    """Draw a legend with its upper left corner at a place."""
    place = f"translate({tidy(at[0])},{tidy(at[1])})"
    root = add_layer(drawing, "legend", "what the marks mean", transform=place)
    root.add(_legend(tuple(entries), look.for_legend(), columns))


@lru_cache(maxsize=64)
def _legend(entries: tuple[Entry, ...], look: Look, columns: int) -> str:
    """Return a legend with its upper left corner at 0, 0, as a group that is text.

    Kept, because the hoopings of a stage nearly all have the same one.
    """
    root, text, left = group(), look.text, iter(entries)
    rows: list[tuple[str, tuple[float, float]]] = []
    for column, heights in enumerate(_heights_by_column(entries, text, columns)):
        x, y = column * COLUMN * text, 0.0
        for height in heights:
            entry = next(left)
            entry.sample(root, x + SAMPLE_WIDTH / 2 * text, y + 0.75 * text, look)
            rows += [
                (words, (x + (SAMPLE_WIDTH + 1) * text, y + (1.1 + row * _NEXT_LINE) * text))
                for row, words in enumerate(_lines(entry.text))
            ]
            y += height
    add_texts(root, rows, text, fill=INK)
    return root.written()


def _lines(words: str) -> list[str]:
    return wrapped(words, size=1.0, width=TEXT_WIDTH)


def _heights_by_column(
    entries: Sequence[Entry], text: float, columns: int
) -> list[list[float]]:
    heights = [(_ROW + _NEXT_LINE * (len(_lines(one.text)) - 1)) * text for one in entries]
    rows = -(-len(heights) // columns)
    return [heights[i : i + rows] for i in range(0, len(heights), max(rows, 1))]


# Samples -------------------------------------------------------------------------------------


def _level(x: float, y: float, text: float) -> Polylines:
    half = SAMPLE_WIDTH / 2 * text
    return Polylines.of([np.array([[x - half, y], [x + half, y]])])


def line_sample(draw: Callable[[Layer, Polylines, Look], None]) -> Sample:
    """Return a sample that draws a level line."""
    return lambda layer, x, y, look: draw(layer, _level(x, y, look.text), look)


def point_sample(draw: Callable[[Layer, Points, Look], None]) -> Sample:
    """Return a sample that draws a mark at a point."""
    return lambda layer, x, y, look: draw(layer, np.array([[x, y]]), look)


def sample_thread(layer: Layer, x: float, y: float, look: Look) -> None:
    """Draw thread on what it lies on."""
    line = _level(x, y, look.text)
    strokes.draw_lay(layer, line, look)
    strokes.draw_thread(layer, line, look)


@lru_cache(maxsize=64)
def sample_thread_of(colour: str) -> Sample:
    """Return a sample of thread in a colour of its own; the same one for the same colour."""
    return lambda layer, x, y, look: sample_thread(layer, x, y, look.of_thread(colour))


def sample_again(layer: Layer, x: float, y: float, look: Look) -> None:
    """Draw thread with ticks across it."""
    strokes.draw_again(layer, _level(x, y, look.text), look)
    sample_thread(layer, x, y, look)


def sample_needle_points(layer: Layer, x: float, y: float, look: Look) -> None:
    """Draw thread with needle points."""
    sample_thread(layer, x, y, look)
    across = np.linspace(-2, 2, 5) * look.text
    strokes.draw_needle_points(layer, np.column_stack([x + across, y + 0 * across]), look)


@lru_cache(maxsize=16)
def sample_order(steps: int) -> Sample:
    """Return a sample that shows the steps of the ramp; the same one for the same steps.

    Else no two legends that have it would be the same, and each would be drawn anew.
    """

    def draw(layer: Layer, x: float, y: float, look: Look) -> None:
        width = SAMPLE_WIDTH * look.text / steps
        left = x - SAMPLE_WIDTH / 2 * look.text
        for step, colour in enumerate(order_colours(steps)):
            ends = left + (step + 0.1) * width, left + (step + 0.9) * width
            strokes.draw_swatch(layer, ends, y, colour, look)

    return draw


def sample_arrow(layer: Layer, x: float, y: float, look: Look) -> None:
    """Draw thread with a head on it."""
    sample_thread(layer, x, y, look)
    strokes.draw_arrows(layer, np.array([[x, y]]), np.array([[1.0, 0.0]]), look)


def sample_cut(layer: Layer, x: float, y: float, look: Look) -> None:
    """Draw an end with a cut."""
    strokes.draw_ends(layer, np.array([[x, y]]), look)
    strokes.draw_cuts(layer, np.array([[x, y]]), look)


def sample_finding(layer: Layer, x: float, y: float, look: Look) -> None:
    """Draw a finding's triangle in the middle of a sample: it reaches up from its place."""
    strokes.draw_findings(layer, np.array([[x, y + 0.35 * look.text]]), look)


def sample_pause(layer: Layer, x: float, y: float, look: Look) -> None:
    """Draw a pause in the middle of a sample, not above it."""
    strokes.draw_pauses(layer, np.array([[x, y + 0.85 * look.mark]]), look)


def sample_ring(layer: Layer, x: float, y: float, look: Look) -> None:
    """Draw a piece of the ring."""
    w, h = 1.5 * look.text, 0.35 * look.text
    strokes.draw_ring(layer, box(x - w, y - h, x + w, y + h), look)


def sample_field(layer: Layer, x: float, y: float, look: Look) -> None:
    """Draw a small field with its top."""
    w, h = 1.5 * look.text, 0.7 * look.text
    corners = np.array([[x - w, y - h], [x + w, y - h], [x + w, y + h], [x - w, y + h]])
    strokes.draw_fields(layer, Polylines.of([corners]), look, weight=0.12)
    strokes.draw_tops(layer, (x, y - 0.1 * look.text), look, right=(1.0, 0.0))
