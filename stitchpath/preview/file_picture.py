"""The picture of a stitch file: what it sews, in its own frame."""

import math

import numpy as np

from stitchpath.model.hooping import Hooping
from stitchpath.model.plan import Figures
from stitchpath.model.stitches import Stitches
from stitchpath.preview import entries
from stitchpath.preview.colours import UNTOLD
from stitchpath.preview.hooping_picture import CAUTION, draw_field, window_of
from stitchpath.preview.labels import Room
from stitchpath.preview.look import choose_look
from stitchpath.preview.polylines import Polylines
from stitchpath.preview.sewing_layers import (
    draw_numbers,
    draw_run_marks,
    draw_sewing,
    first_and_last_first,
    prepare_sewing,
    take_run_marks,
)
from stitchpath.preview.sheet import Caption, begin, finish, lay_out
from stitchpath.preview.svg import written
from stitchpath.preview.trace import trace
from stitchpath.preview.words import figures_text, size


def draw_stitch_file(
    stitches: Stitches,
    figures: Figures,
    *,
    title: str,
    facts: tuple[str, ...],
    field: tuple[float, float] | None,
) -> str:
    """Return what a stitch file sews as an SVG document at true scale, in the file's frame.

    Args:
        stitches: What it sews, in its own frame, mm.
        figures: What that comes to.
        title: What the file is called.
        facts: More to say of it, a line each.
        field: A field to draw around it, width and height in mm, or None. Where the stitches
            reach out of it as they lie, it is drawn around their middle.
    """
    left, top, right, bottom = _box(stitches)
    middle = (0.0, 0.0)
    if field is None or 2 * max(-left, right) > field[0] or 2 * max(-top, bottom) > field[1]:
        middle = ((left + right) / 2, (top + bottom) / 2)
    if field is not None and middle != (0.0, 0.0):
        facts = (*facts, "the field is drawn around it: the file has its centre elsewhere")
    seen = field or (max(right - left, 1.0), max(bottom - top, 1.0))
    hooping = Hooping(number=1, field=seen, centre=middle)
    traced = trace(stitches, hooping.to_field)
    window = window_of(hooping, traced.strands)
    look = choose_look(
        traced.strands,
        longer_side_mm=max(window[2] - window[0], window[3] - window[1]),
        widest_mark_mm=math.inf,
        thread_colour=UNTOLD,
    )
    sewing = prepare_sewing(traced, Polylines.of([]), look, with_points=True)
    around = [] if field is None else [entries.FIELD, entries.CENTRE]
    explained = [*around, *entries.sewing_entries(sewing)]
    caption = Caption(
        title=title,
        facts=(
            f"{size(right - left, bottom - top, 'mm')}, face up",
            figures_text(figures),
            *facts,
        ),
        notes=(CAUTION,),
    )
    sheet = lay_out(window, caption, explained, look.text)
    drawing = begin(sheet)
    if field is not None:
        draw_field(drawing, hooping, look)
    draw_sewing(drawing, sewing, look)
    draw_run_marks(drawing, sewing, look)
    room = Room(cell=4 * look.mark, within=window)
    take_run_marks(traced, look, room)
    draw_numbers(drawing, traced, look, room, first_and_last_first(len(traced.numbers)))
    finish(drawing, sheet, explained, look, unit="mm")
    return written(drawing)


def _box(stitches: Stitches) -> tuple[float, float, float, float]:
    points = np.asarray(stitches.needle_points)
    (left, top), (right, bottom) = points.min(axis=0).tolist(), points.max(axis=0).tolist()
    return left, top, right, bottom
