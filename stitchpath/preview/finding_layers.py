"""Findings in a picture: a triangle round each place, and its number in the booklet's list."""

import math
from collections.abc import Callable, Sequence
from typing import Final

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.model.finding import Level
from stitchpath.model.plan import Plan, Stage
from stitchpath.preview import strokes
from stitchpath.preview.colours import INK
from stitchpath.preview.labels import Box, Room, widened
from stitchpath.preview.look import Look
from stitchpath.preview.placement_layers import Named
from stitchpath.preview.svg import Drawing, add_layer
from stitchpath.preview.tags import Tag, draw_tags, tag_at

NUMBER_OFF: Final = 1.1
"""From a finding's place to its number, to the right and up, as a share of a sign."""
_NEAR: Final = 2.5
"""Findings nearer than so many signs would have the number of one on the other."""
EVERYWHERE: Final = (-math.inf, -math.inf, math.inf, math.inf)


def finding_places(
    plan: Plan,
    stage: Stage,
    window: Box = EVERYWHERE,
    place: Callable[[Points], Points] = lambda xy: xy,
) -> list[Named]:
    """Return the numbers and places of the errors and warnings that are seen in a picture.

    Args:
        plan: Gives the findings; they are numbered from 1.
        stage: What the picture shows, or a part of it.
        window: What is seen, in the picture's frame.
        place: Moves points of the piece into the frame of the picture.
    """
    named = [
        (str(number), finding.where)
        for number, finding in enumerate(plan.findings, 1)
        if finding.stage == stage.name
        and finding.where is not None
        and finding.level is not Level.NOTE
    ]
    spots = place(np.array([where for _, where in named]).reshape(-1, 2)).tolist()
    return [
        (number, (x, y))
        for (number, _), (x, y) in zip(named, spots, strict=True)
        if window[0] <= x <= window[2] and window[1] <= y <= window[3]
    ]


def number_places(places: Sequence[Named], sign: float) -> list[tuple[float, float]]:
    """Return where numbers of findings stand: up and to the right, or left of a near one there.

    Args:
        places: Numbers and places of the findings.
        sign: Size of a sign, mm.

    Example:
        >>> number_places([("1", (0, 0)), ("2", (5, 0))], 10)
        [(-11.0, -11.0), (16.0, -11.0)]
    """
    off, near = NUMBER_OFF * sign, _NEAR * sign
    found = []
    for order, (_, (x, y)) in enumerate(places):
        others = [(at, index) for index, (_, at) in enumerate(places) if index != order]
        beside = any(
            abs(at[0] - x) < near and abs(at[1] - y) < near and (x, order) < (at[0], index)
            for at, index in others
        )
        found.append((x - off if beside else x + off, y - off))
    return found


def draw_findings(drawing: Drawing, places: Sequence[Named], look: Look) -> None:
    """Add findings; no layer where there is none."""
    if not places:
        return
    layer = add_layer(drawing, "findings", "what checks warn of, by its number in the list")
    strokes.draw_findings(layer, np.array([at for _, at in places]), look)
    draw_tags(layer, _tags(places, look), size=look.sign, colour=INK)


def take_findings(places: Sequence[Named], look: Look, room: Room) -> None:
    """Keep other numbers off findings and theirs."""
    for _, (x, y) in places:
        room.take(widened((x, y, x, y), 0.9 * look.sign))
    for tag in _tags(places, look):
        room.take(tag.where)


def _tags(places: Sequence[Named], look: Look) -> list[Tag]:
    spots = number_places(places, look.sign)
    return [
        tag_at(number, at, look.sign) for (number, _), at in zip(places, spots, strict=True)
    ]
