"""The layers of what is sewn: order, thread, moves, starts and ends, numbers."""

from typing import Final

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.preview import strokes
from stitchpath.preview.colours import HOOP, INK
from stitchpath.preview.labels import Room, place_label
from stitchpath.preview.look import Look
from stitchpath.preview.marks import along_lines
from stitchpath.preview.polylines import Polylines, joined, simplified, split_at_corners
from stitchpath.preview.ramp import order_colours, order_steps
from stitchpath.preview.svg import Drawing, Layer, add_layer
from stitchpath.preview.tags import draw_tag, tag_extent
from stitchpath.preview.trace import Trace

NUMBER_SHARE: Final = 0.8
"""Height of a number as a share of a mark."""
LONG_RUN_MARKS: Final = 9.0
"""A strand as long as so many marks has an arrow."""
ARROW_EVERY_MARKS: Final = 30.0


def draw_sewing(drawing: Drawing, sewn: Trace, look: Look, *, with_points: bool) -> None:
    """Add order, thread and, where wanted, needle points."""
    bands = _bands(sewn, look)
    order = add_layer(drawing, "order", "order of sewing: from dark to light")
    for step, (lines, colour) in enumerate(bands, 1):
        layer = add_layer(order, f"order-{step}", f"step {step} of {len(bands)}")
        strokes.draw_order(layer, lines, colour, look)
    thread = add_layer(drawing, "thread", "the sewn thread")
    strokes.draw_lay(thread, joined(lines for lines, _ in bands), look)
    strokes.draw_thread(thread, sewn.strands, look)
    if with_points:
        layer = add_layer(drawing, "needle-points", "needle points")
        strokes.draw_needle_points(layer, sewn.strands.points, look)


def draw_moves(drawing: Drawing, sewn: Trace, look: Look) -> None:
    """Add moves without sewing."""
    layer = add_layer(drawing, "moves", "moves without sewing")
    strokes.draw_travels(layer, sewn.travels, look)
    strokes.draw_hops(layer, sewn.hops, look)


def draw_run_marks(drawing: Drawing, sewn: Trace, look: Look) -> None:
    """Add arrows, ends, cuts, starts and pauses."""
    layer = add_layer(drawing, "direction", "which way lines are sewn")
    strokes.draw_arrows(layer, *arrows(sewn, look), look)
    ends = add_layer(drawing, "ends", "ends of runs and thread cuts")
    strokes.draw_ends(ends, sewn.last_points, look)
    strokes.draw_cuts(ends, sewn.cuts, look)
    starts = add_layer(drawing, "starts", "starts of runs")
    strokes.draw_starts(starts, sewn.first_points, look)
    pauses = add_layer(drawing, "pauses", "pauses for the maker")
    strokes.draw_pauses(pauses, sewn.pauses, look)


def arrows(sewn: Trace, look: Look) -> tuple[Points, Points]:
    """Return where arrows stand and where they point: on long stretches without a corner."""
    lines = simplified(sewn.strands, tolerance_mm=0.02)
    return along_lines(
        split_at_corners(lines),
        every_mm=ARROW_EVERY_MARKS * look.mark,
        least_mm=LONG_RUN_MARKS * look.mark,
    )


def draw_numbers(drawing: Drawing, sewn: Trace, look: Look, room: Room) -> None:
    """Add the numbers of runs at their starts: first and last always, others where room is."""
    layer = add_layer(drawing, "run-numbers", "numbers of runs, in order of sewing")
    starts = sewn.first_points
    _take_marks(sewn, look, room)
    size, count = NUMBER_SHARE * look.mark, len(starts)
    for index in sorted(range(count), key=lambda i: i not in (0, count - 1)):
        words, at = str(sewn.numbers[index]), (float(starts[index, 0]), float(starts[index, 1]))
        must = index in (0, count - 1)
        found = place_label(at, tag_extent(words, size), room, gap=0.46 * look.mark, must=must)
        if found is not None:
            draw_tag(layer, words, found, size=size, colour=INK)


def draw_cross_name(
    layer: Layer, name: str, at: tuple[float, float], look: Look, room: Room
) -> None:
    """Add a placement mark's letter beside its cross; the cross keeps numbers away."""
    size = 1.1 * look.mark
    x, y = at
    found = place_label(at, tag_extent(name, size), room, gap=0.4 * look.mark, must=True)
    room.take((x - look.mark, y - 0.2 * look.mark, x + look.mark, y + 0.2 * look.mark))
    room.take((x - 0.2 * look.mark, y - look.mark, x + 0.2 * look.mark, y + look.mark))
    if found is not None:
        draw_tag(layer, name, found, size=size, colour=HOOP)


def _take_marks(sewn: Trace, look: Look, room: Room) -> None:
    """Keep numbers off starts, ends and pauses."""
    around = 0.42 * look.mark
    places = [sewn.first_points, sewn.last_points, strokes.pause_places(sewn.pauses, look)]
    for x, y in np.concatenate(places).tolist():
        room.take((x - around, y - around, x + around, y + around))


def _bands(sewn: Trace, look: Look) -> list[tuple[Polylines, str]]:
    """Return the strands of each step of the ramp, and the step's colour."""
    steps = order_steps(len(sewn.numbers))
    if not len(steps):
        return []
    colours = order_colours(int(steps[-1]) + 1)
    step_of = steps[sewn.run_of]
    strands = list(sewn.strands)
    parts = [
        Polylines.of(strands[i] for i in np.flatnonzero(step_of == step))
        for step in range(len(colours))
    ]
    return [
        (simplified(part, tolerance_mm=0.05 * look.band), colour)
        for part, colour in zip(parts, colours, strict=True)
    ]
