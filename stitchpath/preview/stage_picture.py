"""The picture of a stage: the whole piece with every hooping, in the piece's frame."""

import math
from typing import Final

import numpy as np
from numpy.typing import NDArray

from stitchpath.model.plan import Plan, Stage
from stitchpath.preview import entries, strokes
from stitchpath.preview.colours import HOOP
from stitchpath.preview.finding_layers import draw_findings, finding_places, take_findings
from stitchpath.preview.joins import draw_joins
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
from stitchpath.preview.sewing_layers import (
    Sewing,
    draw_numbers,
    draw_run_marks,
    draw_sewing,
    first_and_last_first,
    prepare_sewing,
    take_run_marks,
)
from stitchpath.preview.sheet import Caption, begin, finish, lay_out
from stitchpath.preview.svg import Drawing, add_layer, written
from stitchpath.preview.tags import draw_tags, tag_at
from stitchpath.preview.trace import Trace, joined_traces, sewn_again, trace
from stitchpath.preview.words import stage_facts

MOST_NEEDLE_POINTS: Final = 30_000
"""A stage with more shows its needle points in the hoopings' pictures only: the dots would
run together and make the file three times as large."""
MOST_NUMBERED_RUNS: Final = 1_000
"""A stage with more has numbers at the first and last runs of its hoopings only."""
MOST_JOINS: Final = 2_000
"""A stage with more leaves joins to the pictures of its hoopings."""
SIGNS_ACROSS_FIELD: Final = 12
"""A field is as wide as so many signs of a hooping, or wider."""


def draw_stage(plan: Plan, stage: Stage) -> str:
    """Return a whole stage as an SVG document at true scale, in the piece's frame.

    The same plan gives the same text.

    Args:
        plan: Gives the project's name and unit.
        stage: What to draw.
    """
    traces = [
        trace(one.stitches, runs=one.runs, basted=one.basting.stitches)
        for one in stage.hoopings
    ]
    sewn, ground = joined_traces(traces), ground_of(stage, window=None)
    extents = _extents(stage, sewn.strands)
    look = choose_look(
        sewn.strands,
        longer_side_mm=max(extents[2] - extents[0], extents[3] - extents[1]),
        widest_mark_mm=_narrowest_field(stage) / SIGNS_ACROSS_FIELD,
        thread_colour=stage.thread.top,
    )
    few = len(sewn.strands.points) <= MOST_NEEDLE_POINTS
    again, later = sewn_again(stage.hoopings), stage.later_threads
    sewing = prepare_sewing(sewn, again, look, with_points=few, later=later)
    found = finding_places(plan, stage, extents)
    explained = [*_explained(stage, ground, sewing), *([entries.FINDING] if found else [])]
    caption = Caption(title=plan.project.name, facts=stage_facts(stage, plan.project.units))
    box = widened(extents, 1.5 * look.sign)
    sheet = lay_out(box, caption, explained, look.text)
    drawing = begin(sheet)
    draw_ground(drawing, ground, look)
    _draw_fields(drawing, stage, look)
    draw_sewing(drawing, sewing, look)
    room = Room(cell=4 * look.sign, within=box)
    draw_crosses(drawing, _crosses(stage), look)
    overlap = plan.project.hoopings.overlap
    draw_joins(drawing, _joins(stage), look, overlap_mm=overlap)
    draw_run_marks(drawing, sewing, look)
    draw_cross_bars(drawing, _crosses(stage), look)
    take_run_marks(sewn, look, room)
    take_findings(found, look, room)
    _draw_field_numbers(drawing, stage, look, room)
    draw_cross_names(drawing, _crosses(stage), look, room)
    draw_numbers(drawing, sewn, look, room, _numbered(traces, sewn))
    draw_findings(drawing, found, look)
    finish(drawing, sheet, explained, look, unit=plan.project.units)
    return written(drawing)


def _explained(stage: Stage, ground: Ground, sewing: Sewing) -> list[Entry]:
    numbers_all = len(sewing.trace.numbers) <= MOST_NUMBERED_RUNS
    return [
        *entries.ground_entries(ground),
        *([entries.FIELDS] if stage.hoopings else []),
        *entries.sewing_entries(sewing, numbers_all=numbers_all),
        *entries.thread_entries(sewing, stage),
        *([entries.CROSS] if _crosses(stage) else []),
        *([entries.JOIN] if _joins(stage) else []),
    ]


def _extents(stage: Stage, strands: Polylines) -> Box:
    corners = (one.hooping.corners for one in stage.hoopings)
    return bounds_of(stage.piece.outline, strands.points, *corners)


def _narrowest_field(stage: Stage) -> float:
    return min((min(one.hooping.field) for one in stage.hoopings), default=math.inf)


def _numbered(traces: list[Trace], sewn: Trace) -> NDArray[np.intp]:
    """Return the runs that may have a number, the first and the last of all before others."""
    count = len(sewn.numbers)
    if count <= MOST_NUMBERED_RUNS:
        return first_and_last_first(count)
    first = np.cumsum([0, *(len(one.numbers) for one in traces)])
    ends = np.unique(np.concatenate([first[:-1], first[1:] - 1]))
    return ends[first_and_last_first(len(ends))]


def _draw_fields(drawing: Drawing, stage: Stage, look: Look) -> None:
    layer = add_layer(drawing, "fields", "fields of the hoopings")
    corners = Polylines.of(one.hooping.corners for one in stage.hoopings)
    strokes.draw_fields(layer, corners, look, weight=0.08)


def _draw_field_numbers(drawing: Drawing, stage: Stage, look: Look, room: Room) -> None:
    """Add a head at the top of each field and its hooping's number below it."""
    layer = add_layer(drawing, "field-numbers", "tops of the fields, numbers of the hoopings")
    size, tags = 1.5 * look.sign, []
    for one in stage.hoopings:
        top = -one.hooping.field[1] / 2
        spots = np.array([[0.0, top + 0.8 * look.sign], [0.0, top + 2.3 * look.sign]])
        head, middle = one.hooping.to_piece(spots)
        right = np.diff(one.hooping.to_piece(np.array([[0.0, 0.0], [1.0, 0.0]])), axis=0)
        strokes.draw_tops(layer, head, look, right=right)
        tag = tag_at(str(one.hooping.number), (float(middle[0]), float(middle[1])), size)
        room.take(tag.where)
        tags.append(tag)
    draw_tags(layer, tags, size=size, colour=HOOP)


def _joins(stage: Stage) -> list[tuple[float, float]]:
    """Return where hoopings meet; none where there are too many to be told apart."""
    return [join.place for join in stage.joins] if len(stage.joins) <= MOST_JOINS else []


def _crosses(stage: Stage) -> list[Named]:
    return [(mark.name, mark.place) for mark in stage.marks]
