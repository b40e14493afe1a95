"""The layers of what is sewn: order, thread, moves, starts and ends, numbers."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.geometry.points import Points
from stitchpath.preview import strokes
from stitchpath.preview.arrows import arrow_places
from stitchpath.preview.colours import INK, UNTOLD
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
        threads: Colours of the threads that are sewn, by their numbers; 0 is the stage's.
        bands: For each step of the ramp its strands, simplified, and its colour; no basting.
        lines: All strands, simplified; no basting.
        again: What is sewn a second time.
        arrows: Where arrows stand and where they point.
        with_points: Whether needle points are drawn.
    """

    trace: Trace
    threads: dict[int, str]
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

    def by_thread(self, look: Look) -> list[tuple[Look, Polylines, Polylines]]:
        """Return of each thread its look, its lines, and what it is drawn along."""
        if len(self.threads) == 1:
            ((_, colour),) = self.threads.items()
            return [(look.of_thread(colour), self.lines, self.thread)]
        is_vast, stays = self.thread is self.lines, ~self.trace.is_basting
        parts = []
        for number, colour in self.threads.items():
            own = self.trace.thread_of == number
            lines = _lines(self.trace.strands.chosen(own & stays), look)
            strands = lines if is_vast else self.trace.strands.chosen(own)
            parts.append((look.of_thread(colour), lines, strands))
        return parts


def prepare_sewing(
    trace: Trace,
    again: Polylines,
    look: Look,
    *,
    with_points: bool,
    later: Sequence[tuple[str, str]] = (),
) -> Sewing:
    """Return what is sewn, ready to be drawn.

    Args:
        trace: The needle's way.
        again: What is sewn a second time.
        look: Sizes.
        with_points: Whether needle points are drawn, if there are not too many of them.
        later: File and colour of the threads after the stage's, see `Stage.later_threads`.
    """
    few = len(trace.strands.points) <= MOST_STITCHES
    bands = _bands(trace, look)
    lines = joined([own for own, _ in bands])
    colours = (look.thread_colour, *(colour or UNTOLD for _, colour in later))
    numbers = np.unique(trace.thread_of).tolist() if later else [0]
    arrows = arrow_places(
        lines,
        every_mm=ARROW_EVERY_MARKS * look.mark,
        least_mm=LONG_STRETCH_MARKS * look.mark,
    )
    return Sewing(
        trace=trace,
        threads={number: colours[number] for number in numbers},
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
    parts = sewing.by_thread(look)
    for own, lines, strands in parts:
        strokes.draw_lay(thread, lines, own)
        strokes.draw_thread(thread, strands, own)
    if sewing.with_points:
        layer = add_layer(drawing, "needle-points", "needle points")
        for own, _, strands in parts:
            strokes.draw_needle_points(layer, strands.points, own)
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


def take_run_marks(trace: Trace, look: Look, room: Room) -> None:
    """Keep names and numbers off starts, ends and pauses."""
    around = 0.42 * look.mark
    places = [trace.first_points, trace.last_points, strokes.pause_places(trace.pauses, look)]
    for x, y in np.concatenate(places).tolist():
        room.take((x - around, y - around, x + around, y + around))


def draw_numbers(
    drawing: Drawing, trace: Trace, look: Look, room: Room, wanted: NDArray[np.intp]
) -> None:
    """Add the numbers of runs at their starts where there is room.

    Args:
        drawing: Where to.
        trace: The needle's way.
        look: Sizes.
        room: What is taken already, the marks too; numbers are added to it.
        wanted: The runs to number, the most important first; the first two always get one.
    """
    layer = add_layer(drawing, "run-numbers", "numbers of runs, in order of sewing")
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


def _lines(strands: Polylines, look: Look) -> Polylines:
    """Return strands with fewer points, so near that nobody sees a difference."""
    return simplified(strands, tolerance_mm=0.05 * look.band)


def _bands(trace: Trace, look: Look) -> tuple[tuple[Polylines, str], ...]:
    """Return the strands of each step of the ramp, and the step's colour."""
    if not len(trace.numbers):
        return ()
    stays = ~trace.is_basting
    drawn = stays & (trace.strands.sizes > 1)  # simplifying leaves out the others
    lines = _lines(trace.strands.chosen(stays), look)
    steps = order_steps(len(trace.numbers))
    step_of = steps[trace.run_of[drawn]]
    colours = order_colours(int(steps[-1]) + 1)
    ends = np.searchsorted(step_of, np.arange(len(colours) + 1)).tolist()
    bands = (lines.part(*rows) for rows in pairwise(ends))
    return tuple(zip(bands, colours, strict=True))
