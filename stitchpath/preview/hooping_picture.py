"""The picture of one hooping: in the field's own frame, as it lies in the hoop."""

import math
from collections.abc import Sequence
from typing import Final

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.model.hooping import Hooping
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.preview import entries, strokes
from stitchpath.preview.colours import INK
from stitchpath.preview.finding_layers import draw_findings, finding_places, take_findings
from stitchpath.preview.joins import draw_joins, draw_neighbours, meetings_of
from stitchpath.preview.labels import Box, Room, widened
from stitchpath.preview.legend import Entry
from stitchpath.preview.look import Look, choose_look
from stitchpath.preview.piece_layers import Ground, draw_ground, ground_of
from stitchpath.preview.placement_layers import (
    Named,
    draw_cross_bars,
    draw_cross_names,
    draw_crosses,
)
from stitchpath.preview.polylines import Polylines, bounds_of
from stitchpath.preview.ring_layers import draw_ring, ring_edges
from stitchpath.preview.sewing_layers import (
    Sewing,
    draw_numbers,
    draw_run_marks,
    draw_sewing,
    first_and_last_first,
    prepare_sewing,
    take_run_marks,
)
from stitchpath.preview.sheet import Caption, Sheet, begin, finish, lay_out
from stitchpath.preview.svg import Drawing, add_layer, add_texts, written
from stitchpath.preview.trace import sewn_again, trace
from stitchpath.preview.words import basting_text, hooping_facts

CAUTION: Final = (
    "Before sewing, check the needle's path against the hoop by a trace; "
    "keep hands out of the field; see the machine's manual."
)
_MARGIN: Final = 0.05
"""What is seen round the field, as a share of its longer side."""


def draw_hooping(plan: Plan, stage: Stage, sewn: SewnHooping) -> str:
    """Return one hooping as an SVG document at true scale, in the field's frame.

    The origin is the field's centre, x to the right and y down, as in the stitch files.

    Args:
        plan: Gives the project's name and unit.
        stage: The stage that the hooping belongs to.
        sewn: What to draw.
    """
    hooping, unit = sewn.hooping, plan.project.units
    basted = sewn.basting.stitches
    traced = trace(sewn.stitches, hooping.to_field, runs=sewn.runs, basted=basted)
    ring = ring_edges(hooping, plan.project.machine)
    box = window_of(hooping, traced.strands, ring)
    ground = ground_of(stage, window=box, place=hooping.to_field)
    look = choose_look(
        traced.strands,
        longer_side_mm=max(box[2] - box[0], box[3] - box[1]),
        widest_mark_mm=math.inf,
        thread_colour=stage.thread.top,
    )
    again = sewn_again([sewn], hooping.to_field)
    sewing = prepare_sewing(traced, again, look, with_points=True, later=stage.later_threads)
    found = finding_places(plan, stage, box, hooping.to_field)
    joins = _joins(plan, stage, hooping)
    explained = [
        *_explained(stage, hooping, ground, sewing),
        *_explained_besides(ring=bool(ring), joins=bool(joins), found=bool(found)),
    ]
    facts = hooping_facts(stage, hooping, sewn.figures, unit)
    facts += tuple(filter(None, [basting_text(sewn.basting)]))
    caption = Caption(title=plan.project.name, facts=facts, notes=(CAUTION,))
    sheet = lay_out(box, caption, explained, look.text)
    drawing = begin(sheet)
    draw_ground(drawing, ground, look)
    draw_ring(drawing, ring, look)
    draw_field(drawing, hooping, look)
    draw_sewing(drawing, sewing, look)
    room, crosses = Room(cell=4 * look.mark, within=box), _crosses(hooping)
    draw_crosses(drawing, crosses, look)
    overlap = plan.project.hoopings.overlap
    draw_joins(drawing, [at for _, at in joins], look, overlap_mm=overlap)
    draw_run_marks(drawing, sewing, look)
    draw_cross_bars(drawing, crosses, look)
    room.take(widened(2 * _top_of(hooping, look), 0.5 * look.sign))
    take_run_marks(traced, look, room)
    take_findings(found, look, room)
    draw_cross_names(drawing, crosses, look, room)
    draw_neighbours(drawing, joins, look, room)
    draw_numbers(drawing, traced, look, room, first_and_last_first(len(traced.numbers)))
    draw_findings(drawing, found, look)
    end = finish(drawing, sheet, explained, look, unit=unit)
    _draw_bearing(drawing, sheet, stage, hooping, (end, look))
    return written(drawing)


def _explained(stage: Stage, hooping: Hooping, ground: Ground, sewing: Sewing) -> list[Entry]:
    return [
        *entries.ground_entries(ground),
        entries.FIELD,
        entries.CENTRE,
        *entries.sewing_entries(sewing),
        *entries.thread_entries(sewing, stage),
        *([entries.CROSS] if hooping.marks else []),
    ]


def _explained_besides(*, ring: bool, joins: bool, found: bool) -> list[Entry]:
    every = ((ring, entries.RING), (joins, entries.JOIN_NUMBERED), (found, entries.FINDING))
    return [entry for occurs, entry in every if occurs]


def _joins(plan: Plan, stage: Stage, hooping: Hooping) -> list[Named]:
    """Return the neighbour's number and the place of each join, in the field's frame."""
    return [
        (str(meeting.other), (x, y))
        for meeting in meetings_of(plan, stage, hooping.number)
        for x, y in hooping.to_field(np.array(meeting.places)).tolist()
    ]


def _crosses(hooping: Hooping) -> list[Named]:
    return [(mark.name, mark.field) for mark in hooping.marks]


def window_of(hooping: Hooping, strands: Polylines, ring: Sequence[Points] = ()) -> Box:
    """Return what is seen: field and ring, something round it, and anything that sticks out."""
    inner = np.vstack([np.array(hooping.field) / 2, *ring]).max(axis=0)
    half = inner + _MARGIN * max(hooping.field)
    marks = np.array([mark.field for mark in hooping.marks]).reshape(-1, 2)
    return bounds_of(np.stack([-half, half]), strands.points, marks)


def draw_field(drawing: Drawing, hooping: Hooping, look: Look) -> None:
    """Add the field as a rectangle, its top and its centre."""
    width, height = hooping.field
    corners = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * (width / 2, height / 2)
    layer = add_layer(drawing, "field", "the field: what the needle can reach")
    strokes.draw_fields(layer, Polylines.of([corners]), look, weight=0.14)
    strokes.draw_tops(layer, _top_of(hooping, look), look, right=(1.0, 0.0))
    strokes.draw_centre(layer, np.zeros((1, 2)), look)


def _top_of(hooping: Hooping, look: Look) -> tuple[float, float]:
    """Return where the head above the top of the field stands."""
    return 0.0, -hooping.field[1] / 2 - 0.7 * look.sign


def _draw_bearing(
    drawing: Drawing, sheet: Sheet, stage: Stage, hooping: Hooping, beside: tuple[float, Look]
) -> None:
    """Show where the piece's top is, since the field may be turned on it."""
    (end, look), text = beside, beside[1].text
    layer = add_layer(drawing, "bearing", "where the piece's top is")
    x, y = end + 2.5 * text, sheet.scale[1] + 0.25 * text
    up = hooping.to_field(np.array([[0.0, -1.0], [0.0, 0.0]]))
    strokes.draw_arrows(layer, np.array([[x, y]]), up[:1] - up[1:], look.for_legend())
    words = f"to the top of the {stage.piece.name}"
    add_texts(layer, [(words, (x + text, y + 0.35 * text))], text, fill=INK)
