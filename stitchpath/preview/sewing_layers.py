"""The layers of what is sewn: order, thread, moves, starts and ends, numbers."""

from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.preview import strokes
from stitchpath.preview.arrows import arrow_places
from stitchpath.preview.colours import INK
from stitchpath.preview.labels import Room, place_label
from stitchpath.preview.look import Look
from stitchpath.preview.polylines import Polylines, joined, simplified
from stitchpath.preview.ramp import order_colours, order_steps
from stitchpath.preview.svg import Drawing, add_layer
from stitchpath.preview.tags import Tag, draw_tags, tag_extent
from stitchpath.preview.trace import Trace

NUMBER_SHARE: Final = 0.8
"""Height of a number as a share of a mark."""
LONG_STRETCH_MARKS: Final = 9.0
"""A stretch as long as so many marks has an arrow."""
ARROW_EVERY_MARKS: Final = 36.0
MOST_STITCHES: Final = 1_000_000
"""A picture of more draws the thread along its lines, and no needle points: nobody could tell
the stitches apart, and nothing opens a file of 14 bytes for each of them."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Sewing:
    """What is sewn, made ready once for both drawing and legend.

    Attributes:
        trace: The needle's way.
        bands: For each step of the ramp its strands, simplified, and its colour; no basting.
        lines: All strands, simplified; no basting.
        again: What is sewn a second time.
        arrows: Where arrows stand and where they point.
        with_points: Whether needle points are drawn.
    """

    trace: Trace
    bands: tuple[tuple[Polylines, str], ...]
    lines: Polylines
    again: Polylines
    arrows: tuple[Points, Points]
    with_points: bool

    @property
    def basting(self) -> Polylines:
        """The strands that are taken out when the quilt is done."""
        return self.trace.strands.chosen(self.trace.is_basting)

    @property
    def thread(self) -> Polylines:
        """What the thread is drawn along: stitches, or lines where there are too many."""
        is_vast = len(self.trace.strands.points) > MOST_STITCHES
        return self.lines if is_vast else self.trace.strands


def prepare_sewing(trace: Trace, again: Polylines, look: Look, *, with_points: bool) -> Sewing:
    """Return what is sewn, ready to be drawn.

    Args:
        trace: The needle's way.
        again: What is sewn a second time.
        look: Sizes.
        with_points: Whether needle points are drawn, if there are not too many of them.
    """
    few = len(trace.strands.points) <= MOST_STITCHES
    bands = _bands(trace, tolerance_mm=0.05 * look.band)
    lines = joined([own for own, _ in bands])
    arrows = arrow_places(
        lines,
        every_mm=ARROW_EVERY_MARKS * look.mark,
        least_mm=LONG_STRETCH_MARKS * look.mark,
    )
    return Sewing(
        trace=trace,
        bands=bands,
        lines=lines,
        again=again,
        arrows=arrows,
        with_points=with_points and few,
    )


def draw_sewing(drawing: Drawing, sewing: Sewing, look: Look) -> None:
    """Add order, thread, needle points where wanted, and moves without sewing."""
    order = add_layer(drawing, "order", "order of sewing: from dark to light")
    for step, (lines, colour) in enumerate(sewing.bands, 1):
        layer = add_layer(order, f"order-{step}", f"step {step} of {len(sewing.bands)}")
        strokes.draw_order(layer, lines, colour, look)
    thread = add_layer(drawing, "thread", "the sewn thread")
    strokes.draw_again(thread, sewing.again, look)
    strokes.draw_lay(thread, sewing.lines, look)
    strokes.draw_thread(thread, sewing.thread, look)
    if sewing.with_points:
        layer = add_layer(drawing, "needle-points", "needle points")
        strokes.draw_needle_points(layer, sewing.trace.strands.points, look)
    if len(sewing.basting):
        layer = add_layer(drawing, "basting", "basting, taken out when the quilt is done")
        strokes.draw_basting(layer, sewing.basting, look)
    moves = add_layer(drawing, "moves", "moves without sewing")
    strokes.draw_travels(moves, sewing.trace.travels, look)
    strokes.draw_hops(moves, sewing.trace.hops, look)


def draw_run_marks(drawing: Drawing, sewing: Sewing, look: Look) -> None:
    """Add arrows, ends, cuts, starts and pauses."""
    trace = sewing.trace
    layer = add_layer(drawing, "direction", "which way lines are sewn")
    strokes.draw_arrows(layer, *sewing.arrows, look)
    ends = add_layer(drawing, "ends", "ends of runs and thread cuts")
    strokes.draw_ends(ends, trace.last_points, look)
    strokes.draw_cuts(ends, trace.cuts, look)
    starts = add_layer(drawing, "starts", "starts of runs")
    strokes.draw_starts(starts, trace.first_points, look)
    pauses = add_layer(drawing, "pauses", "pauses for the maker")
    strokes.draw_pauses(pauses, trace.pauses, look)


def draw_numbers(
    drawing: Drawing, trace: Trace, look: Look, room: Room, wanted: NDArray[np.intp]
) -> None:
    """Add the numbers of runs at their starts where there is room.

    Args:
        drawing: Where to.
        trace: The needle's way.
        look: Sizes.
        room: What is taken already; marks and numbers are added to it.
        wanted: The runs to number, the most important first; the first two always get one.
    """
    layer = add_layer(drawing, "run-numbers", "numbers of runs, in order of sewing")
    _take_marks(trace, look, room)
    size, tags = NUMBER_SHARE * look.mark, []
    starts, numbers = trace.first_points[wanted].tolist(), trace.numbers[wanted].tolist()
    for place, ((x, y), number) in enumerate(zip(starts, numbers, strict=True)):
        extent, must = tag_extent(str(number), size), place < 2  # noqa: PLR2004 - first, last
        where = place_label((x, y), extent, room, gap=0.46 * look.mark, must=must)
        if where is not None:
            tags.append(Tag(words=str(number), where=where))
    draw_tags(layer, tags, size=size, colour=INK)


def first_and_last_first(count: int) -> NDArray[np.intp]:
    """Return the order in which `count` runs get their numbers.

    Example:
        >>> first_and_last_first(4).tolist(), first_and_last_first(1).tolist()
        ([0, 3, 1, 2], [0])
    """
    return np.concatenate(
        [np.arange(count)[:1], np.arange(count)[1:][-1:], np.arange(1, count - 1)]
    )


def _take_marks(trace: Trace, look: Look, room: Room) -> None:
    """Keep numbers off starts, ends and pauses."""
    around = 0.42 * look.mark
    places = [trace.first_points, trace.last_points, strokes.pause_places(trace.pauses, look)]
    for x, y in np.concatenate(places).tolist():
        room.take((x - around, y - around, x + around, y + around))


def _bands(trace: Trace, *, tolerance_mm: float) -> tuple[tuple[Polylines, str], ...]:
    """Return the strands of each step of the ramp, and the step's colour."""
    if not len(trace.numbers):
        return ()
    stays = ~trace.is_basting
    drawn = stays & (trace.strands.sizes > 1)  # simplifying leaves out the others
    lines = simplified(trace.strands.chosen(stays), tolerance_mm=tolerance_mm)
    steps = order_steps(len(trace.numbers))
    step_of = steps[trace.run_of[drawn]]
    colours = order_colours(int(steps[-1]) + 1)
    ends = np.searchsorted(step_of, np.arange(len(colours) + 1)).tolist()
    bands = (lines.part(*rows) for rows in pairwise(ends))
    return tuple(zip(bands, colours, strict=True))
