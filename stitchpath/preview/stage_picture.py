"""The picture of a stage: the whole piece with every hooping, in the piece's frame."""

from typing import Final

import numpy as np

from stitchpath.model.plan import Plan, Stage
from stitchpath.preview import entries, strokes
from stitchpath.preview.colours import HOOP
from stitchpath.preview.labels import Box, Room
from stitchpath.preview.look import Look, choose_look
from stitchpath.preview.piece_layers import draw_ground, ground_of
from stitchpath.preview.polylines import Polylines
from stitchpath.preview.sewing_layers import (
    draw_cross_name,
    draw_moves,
    draw_numbers,
    draw_run_marks,
    draw_sewing,
)
from stitchpath.preview.sheet import Caption, begin, finish, lay_out
from stitchpath.preview.svg import Drawing, add_layer, written
from stitchpath.preview.tags import box_around, draw_tag, tag_extent
from stitchpath.preview.trace import joined_traces, trace
from stitchpath.preview.words import stage_facts

MOST_NEEDLE_POINTS: Final = 30_000
"""A stage with more shows its needle points in the hoopings' pictures only: the dots would
run together and make the file three times as large."""


def draw_stage(plan: Plan, stage: Stage) -> str:
    """Return a whole stage as an SVG document at true scale, in the piece's frame.

    The same plan gives the same text. Needle points are drawn up to `MOST_NEEDLE_POINTS`.

    Args:
        plan: Gives the project's name and unit.
        stage: What to draw.
    """
    unit = plan.project.units
    sewn = joined_traces([trace(one.stitches) for one in stage.hoopings])
    ground = ground_of(stage, window=None)
    box = _extents(stage, sewn.strands)
    look = choose_look(
        sewn.strands,
        longer_side_mm=max(box[2] - box[0], box[3] - box[1]),
        thread_colour=stage.thread.top,
    )
    with_points = len(sewn.strands.points) <= MOST_NEEDLE_POINTS
    explained = [
        *entries.piece_entries(ground.outline, ground.shadow, ground.design),
        *(
            [entries.field_entry("field with hooping number, head to its top")]
            * bool(stage.hoopings)
        ),
        *entries.sewing_entries(sewn, look, with_points=with_points),
        *([entries.CROSS] * any(one.hooping.marks for one in stage.hoopings)),
    ]
    caption = Caption(title=plan.project.name, facts=stage_facts(stage, unit))
    sheet = lay_out(box, caption, explained, look.text)
    drawing = begin(sheet)
    draw_ground(drawing, ground, look)
    _draw_fields(drawing, stage, look)
    draw_sewing(drawing, sewn, look, with_points=with_points)
    draw_moves(drawing, sewn, look)
    draw_run_marks(drawing, sewn, look)
    room = Room(cell=4 * look.mark)
    _draw_field_numbers(drawing, stage, look, room)
    _draw_marks(drawing, stage, look, room)
    draw_numbers(drawing, sewn, look, room)
    finish(drawing, sheet, explained, look, unit=unit)
    return written(drawing)


def _extents(stage: Stage, strands: Polylines) -> Box:
    corners = [one.hooping.corners for one in stage.hoopings]
    every = np.vstack([stage.piece.outline, strands.points, *corners])
    return (*every.min(axis=0).tolist(), *every.max(axis=0).tolist())


def _draw_fields(drawing: Drawing, stage: Stage, look: Look) -> None:
    layer = add_layer(drawing, "fields", "fields of the hoopings")
    corners = Polylines.of(one.hooping.corners for one in stage.hoopings)
    strokes.draw_fields(layer, corners, look, weight=0.08)


def _draw_field_numbers(drawing: Drawing, stage: Stage, look: Look, room: Room) -> None:
    layer = add_layer(drawing, "field-numbers", "numbers of the hoopings")
    size = 1.5 * look.mark
    for one in stage.hoopings:
        half = one.hooping.field[1] / 2
        spots = np.array([[0.0, -half + 0.8 * look.mark], [0.0, -half + 2.3 * look.mark]])
        (top, middle) = one.hooping.to_piece(spots)
        right = one.hooping.to_piece(np.array([[1.0, 0.0], [0.0, 0.0]]))
        strokes.draw_tops(layer, top, look, right=right[0] - right[1])
        words = str(one.hooping.number)
        box = box_around((float(middle[0]), float(middle[1])), tag_extent(words, size))
        room.take(box)
        draw_tag(layer, words, box, size=size, colour=HOOP)


def _draw_marks(drawing: Drawing, stage: Stage, look: Look, room: Room) -> None:
    layer = add_layer(drawing, "placement", "placement marks")
    places = [
        (f"{one.hooping.number}{mark.name}", mark.piece)
        for one in stage.hoopings
        for mark in one.hooping.marks
    ]
    strokes.draw_crosses(layer, [at for _, at in places], look)
    for name, at in places:
        draw_cross_name(layer, name, at, look, room)
