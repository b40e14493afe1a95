"""Findings in a picture: a diamond where each lies, with its number in the booklet's list."""

from collections.abc import Callable, Sequence

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan, Stage
from stitchpath.preview import strokes
from stitchpath.preview.colours import INK
from stitchpath.preview.labels import Box
from stitchpath.preview.look import Look
from stitchpath.preview.placement_layers import Named
from stitchpath.preview.svg import Drawing, add_layer, add_texts


def placed_findings(plan: Plan, stage: Stage) -> list[tuple[int, Finding]]:
    """Return a stage's errors and warnings that have a place, with their numbers from 1."""
    return [
        (number, finding)
        for number, finding in enumerate(plan.findings, 1)
        if finding.stage == stage.name
        and finding.where is not None
        and finding.level is not Level.NOTE
    ]


def finding_places(
    plan: Plan, stage: Stage, window: Box, place: Callable[[Points], Points] = lambda xy: xy
) -> list[Named]:
    """Return the numbers and places of the findings that are seen in a picture.

    Args:
        plan: Gives the findings.
        stage: What the picture shows, or a part of it.
        window: What is seen, in the picture's frame.
        place: Moves points of the piece into the frame of the picture.
    """
    named = [(str(number), finding.where) for number, finding in placed_findings(plan, stage)]
    spots = place(np.array([where for _, where in named]).reshape(-1, 2)).tolist()
    return [
        (number, (x, y))
        for (number, _), (x, y) in zip(named, spots, strict=True)
        if window[0] <= x <= window[2] and window[1] <= y <= window[3]
    ]


def draw_findings(drawing: Drawing, places: Sequence[Named], look: Look) -> None:
    """Add findings; no layer where there is none."""
    if not places:
        return
    layer = add_layer(drawing, "findings", "where findings lie, by their numbers in the list")
    strokes.draw_findings(layer, np.array([at for _, at in places]), look)
    size = look.sign
    lines = [(number, (x, y + 0.36 * size)) for number, (x, y) in places]
    add_texts(layer, lines, size, fill=INK, text_anchor="middle")
