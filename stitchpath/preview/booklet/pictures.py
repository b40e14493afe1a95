"""The booklet's pictures: small, and in the colours of the page that holds them.

Shapes have classes, not colours; booklet.css says how each looks in light, dark and print. The
full pictures with every needle point are files of their own.
"""

import math
from collections.abc import Sequence
from typing import Final

import numpy as np

from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.model.hooping import Hooping
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.preview import marks
from stitchpath.preview.booklet.facts import hooping_id
from stitchpath.preview.booklet.markup import Markup, joined, tag
from stitchpath.preview.booklet.names import ARM, name_beside, taken_room
from stitchpath.preview.finding_layers import number_places
from stitchpath.preview.joins import meetings_of
from stitchpath.preview.labels import Box, Room, text_width
from stitchpath.preview.path_data import lines_data
from stitchpath.preview.placement_layers import Named
from stitchpath.preview.polylines import Polylines, simplified
from stitchpath.preview.polylines import joined as joined_lines
from stitchpath.preview.ring_layers import ring_edges
from stitchpath.preview.svg import tidy
from stitchpath.preview.trace import trace

_FINEST: Final = 500
"""A picture is drawn to this part of its longer side: about a dot of a screen."""
_GRID: Final = 2
"""Steps in a millimetre of what a picture shows: finer than a dot where a field fills it."""
_CLOSE: Final = 120
"""Lines closer than this part of it are drawn finer, so that they do not run together."""
_TEXT_SHARE: Final = 1 / 30
_JOIN_OF_PITCH: Final = 0.8
_LEAST_JOIN: Final = 0.4
_WORDS: Final = 1.35
"""How much larger than signs words are in a hooping's picture: a telephone shows it small."""
_SIGN_OF_WIDTH: Final = 0.033
"""Of a hooping's picture: where it is 320 pixels wide, as on a telephone, words have 14."""
_MARGIN: Final = 2.4
"""Beside the ring, in signs: room for what is written there."""
_BELOW_HEAD: Final = 1.8
"""From the top of a field to its number, in signs: beside the head, so that it is told whose
number it is where fields lie on one another."""
_NUMBER: Final = 1.4
"""How large a field's or a finding's number is, in signs."""
_CLOSE_SEWING: Final = 30
"""Lines that are sewn closer than this part of the picture are drawn finer too."""


def stage_overview(stage: Stage, findings: Sequence[Named]) -> Markup:
    """Return a stage's piece, its lines, and its hoopings as links to their pages.

    Args:
        stage: What to draw.
        findings: Numbers and places of what is found on it.
    """
    box = _extents(stage)
    longer = max(box[2] - box[0], box[3] - box[1])
    narrowest = min((min(one.hooping.field) for one in stage.hoopings), default=longer)
    text = min(longer * _TEXT_SHARE, narrowest / 4)
    ground = _ground(stage, longer)
    inside = [
        tag("g", *ground, id=_ground_id(stage)),
        *(_field_link(stage, sewn, text) for sewn in stage.hoopings),
        *(
            _finding(number, at, beside, text)
            for (number, at), beside in zip(
                findings, number_places(findings, text), strict=True
            )
        ),
    ]
    label = f"the {stage.piece.name} with its hoopings; each leads to its page"
    margin = 1.8 * text if findings else text  # a number may stand beside the piece
    return _svg(box, inside, margin=margin, role="group", aria_label=label)


def hooping_picture(plan: Plan, stage: Stage, sewn: SewnHooping) -> Markup:
    """Return what one hooping sews, in the field's frame, as it lies in the hoop.

    Piece and designed lines are those of the stage's overview, which has to be on the page.
    """
    hooping = sewn.hooping
    half = np.array(hooping.field) / 2
    ring = ring_edges(hooping, plan.project.machine)
    rim = np.vstack([half, *ring]).max(axis=0)
    text = 2 * float(rim[0]) * _SIGN_OF_WIDTH / (1 - 2 * _MARGIN * _SIGN_OF_WIDTH)
    reach, longer = rim + _MARGIN * text, max(hooping.field)
    window = (-reach[0], -reach[1], reach[0], reach[1])
    x, y = (tidy(-distance) for distance in hooping.centre)
    to_field = f"rotate({tidy(-hooping.turn_deg)}) translate({x} {y})"
    lines = Polylines.of(line.points for run in sewn.runs for line in run.lines)
    placed = lines.placed(hooping.to_field)
    sewing = simplified(placed, tolerance_mm=longer / _FINEST, apart=False)
    points = sewn.stitches.needle_points
    ends = hooping.to_field(np.concatenate([points[:1], points[-1:]]))
    marked = [(mark.name, mark.field) for mark in hooping.marks]
    spots = np.vstack([ends, (0.0, 0.9 * text - half[1])])
    room = taken_room(window, marked, spots, text)
    inside = [
        tag("use", href=f"#{_ground_id(stage)}", transform=to_field),
        _path(Polylines.of(ring), "ring", closed=True),
        _shape(np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * half, "field"),
        _path(_basted(sewn), "basting"),
        _path(sewing, "sewing close" if _lie_close(placed, longer) else "sewing"),
        _top(np.array([0.0, -half[1]]), np.array([1.0, 0.0]), text),
        *_ends(ends, text),
        *_crosses(marked, room, text),
        *_joins(plan, stage, hooping, room, text),
        *_sides(stage.piece.name, hooping, rim, text),
    ]
    label = (
        f"hooping {hooping.number} of the {stage.name} stage as it lies in the hoop: "
        "its lines, where the needle starts and ends, its placement marks, the hoop's ring, "
        "and where it joins other hoopings"
    )
    return _svg(window, inside, margin=0.0, role="img", aria_label=label)


def _lie_close(lines: Polylines, longer_mm: float) -> bool:
    """Whether what a hooping sews would run together: its area over its length tells."""
    if not len(lines):
        return False
    width, height = np.ptp(lines.points, axis=0).tolist()
    return bool(width * height < lines.length * longer_mm / _CLOSE_SEWING)


def _ground_id(stage: Stage) -> str:
    return f"ground-{stage.name}"


def _extents(stage: Stage) -> Box:
    corners = [one.hooping.corners for one in stage.hoopings]
    every = np.vstack([stage.piece.outline, *corners])
    (x0, y0), (x1, y1) = every.min(axis=0).tolist(), every.max(axis=0).tolist()
    return x0, y0, x1, y1


def _svg(box: Box, inside: Sequence[Markup], *, margin: float, **labels: str) -> Markup:
    x0, y0, x1, y1 = box
    corner = (x0 - margin, y0 - margin)
    extent = (x1 - x0 + 2 * margin, y1 - y0 + 2 * margin)
    view = " ".join(str(tidy(number)) for number in (*corner, *extent))
    return tag("svg", *inside, viewBox=view, class_="picture", **labels)


def _ground(stage: Stage, longer_mm: float) -> list[Markup]:
    piece = stage.piece
    outline = Polylines.of([piece.outline])
    shadow = Polylines.of([] if piece.shadow is None else [piece.shadow])
    lines = Polylines.of(line.points for line in stage.lines)
    design = simplified(lines, tolerance_mm=longer_mm / _FINEST, apart=False)
    close = piece.width * piece.length < design.length * longer_mm / _CLOSE
    return [
        _path(outline, "cloth", closed=True),
        _path(outline, "outline", closed=True),
        _path(shadow, "shadow", closed=True),
        _path(design, "design fine" if close else "design"),
    ]


def _path(lines: Polylines, name: str, *, closed: bool = False) -> Markup:
    data = lines_data(lines, per_mm=_GRID, closed=closed)
    if not data:
        return joined()
    return tag("path", d=data, class_=name, transform=f"scale({1 / _GRID})")


def _shape(corners: Points, name: str) -> Markup:
    """Return a closed shape of few corners."""
    spots = " ".join(f"{tidy(x)},{tidy(y)}" for x, y in corners.tolist())
    return tag("polygon", points=spots, class_=name)


def _field_link(stage: Stage, sewn: SewnHooping, text: float) -> Markup:
    hooping = sewn.hooping
    top, right = hooping.to_piece(np.array([[0.0, -hooping.field[1] / 2], [1.0, 0.0]]))
    number, size = str(hooping.number), _NUMBER * text
    down = (hooping.centre - top) / (hooping.field[1] / 2)
    reach = np.abs(down) @ np.array([text_width(number, size), size]) / 2
    place = top + (_BELOW_HEAD * text + reach) * down
    return tag(
        "a",
        _shape(hooping.corners, "field"),
        _top(top, right - hooping.centre, text),
        _words(number, tuple(place.tolist()), size, "number"),
        href=f"#{hooping_id(stage, hooping)}",
        aria_label=f"hooping {hooping.number}",
    )


def _top(at: Points, right: Points, text: float) -> Markup:
    """Return a head just inside the top of a field."""
    down = np.array([-right[1], right[0]])
    across, along = marks.POINTER[:, :1] * right, marks.POINTER[:, 1:] * down
    return _shape(at + text * (0.9 * down + across + along), "top")


def _ends(points: Points, text: float) -> list[Markup]:
    if not len(points):
        return []
    x, y = points[0].tolist()
    return [
        _shape(points[-1] + 0.6 * text * marks.SQUARE, "end"),
        tag("circle", cx=tidy(x), cy=tidy(y), r=tidy(0.36 * text), class_="start"),
    ]


def _basted(sewn: SewnHooping) -> Polylines:
    """Return what is basted first, in the field's frame."""
    basted = sewn.basting.stitches
    if not basted:
        return Polylines.of([])
    traced = trace(sewn.stitches, sewn.hooping.to_field, basted=basted)
    return traced.strands.chosen(traced.is_basting)


def _joins(plan: Plan, stage: Stage, hooping: Hooping, room: Room, text: float) -> list[Markup]:
    """Return diamonds at the joins, and each neighbour's number beside one of its own."""
    meetings = meetings_of(plan, stage, hooping.number)
    spots = [hooping.to_field(np.array(meeting.places)) for meeting in meetings]
    diamonds = [marks.stamped(marks.DIAMOND, met, _join_size(met, text)) for met in spots]
    return [
        _path(joined_lines(diamonds), "join", closed=True),
        *(
            _neighbour(meeting.other, met, room, text)
            for meeting, met in zip(meetings, spots, strict=True)
        ),
    ]


def _join_size(met: Points, text: float) -> float:
    """Return how large diamonds are, so that most of them stand apart from the next, mm."""
    steps = segment_lengths(met)
    apart = float(np.median(steps)) if len(steps) else math.inf
    return max(min(1.5 * text, _JOIN_OF_PITCH * apart), _LEAST_JOIN * text)


def _neighbour(number: int, met: Points, room: Room, text: float) -> Markup:
    """Return a neighbour's number, beside the middle one of its joins that has room."""
    middle = len(met) // 2
    nearest = sorted(range(len(met)), key=lambda join: abs(join - middle))
    places = [(float(x), float(y)) for x, y in met[nearest]]
    size = _WORDS * text
    place = name_beside(str(number), places, room, off=1.2 * text, size=size)
    return _words(str(number), place, size, "number")


def _crosses(marked: Sequence[Named], room: Room, text: float) -> list[Markup]:
    arm, size = ARM * text, _WORDS * text
    shown = []
    for name, (x, y) in marked:
        arms = (
            f"M{tidy(x - arm)} {tidy(y)}h{tidy(2 * arm)}"
            f"M{tidy(x)} {tidy(y - arm)}v{tidy(2 * arm)}"
        )
        place = name_beside(name, [(x, y)], room, off=1.2 * arm, size=size)
        shown.append(
            joined(tag("path", d=arms, class_="cross"), _words(name, place, size, "number"))
        )
    return shown


def _finding(
    number: str, at: tuple[float, float], beside: tuple[float, float], text: float
) -> Markup:
    """Return an open triangle round a finding's place, and its number beside it."""
    return joined(
        _shape(1.7 * text * marks.TRIANGLE + at, "finding"),
        _words(number, beside, _NUMBER * text, "finding-number"),
    )


def _sides(piece: str, hooping: Hooping, half: Points, text: float) -> list[Markup]:
    """Return what is written beside a field: where the piece's top is, where the throat is."""
    up = np.diff(hooping.to_field(np.array([[0.0, 1.0], [0.0, 0.0]])), axis=0)[0]
    level = bool(abs(up[0]) > abs(up[1]))
    side = np.array([np.sign(up[0]), 0.0] if level else [0.0, np.sign(up[1])])
    off, size = half + 1.6 * text, _WORDS * text
    topmost = side * off
    throat = np.array([off[0], 0.0])
    if level and side[0] > 0:  # both on one side: one above the other
        apart = np.array([0.0, half[1] / 2])
        topmost, throat = topmost - apart, throat + apart
    return [
        _words(f"top of the {piece}", tuple(topmost.tolist()), size, "side", upright=level),
        _words("throat side", tuple(throat.tolist()), size, "side", upright=True),
    ]


def _words(
    words: str, at: tuple[float, float], size: float, name: str, *, upright: bool = False
) -> Markup:
    x, y = tidy(at[0]), tidy(at[1])
    turned = f"rotate(90 {x} {y})" if upright else None
    drop = tidy(0.35 * size)
    return tag(
        "text", words, x=x, y=y, dy=drop, font_size=tidy(size), class_=name, transform=turned
    )
