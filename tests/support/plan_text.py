"""A plan as text: short enough to read, exact enough to see any change."""

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.model.plan import Figures, Plan, SewnHooping, Stage
from stitchpath.model.stitches import Op
from tests.support.sewn import sewn_paths


def plan_text(plan: Plan) -> str:
    """Return a plan: a line for each stage, hooping and path sewn in one go; places in mm."""
    return "".join(f"{line}\n" for line in _lines(plan))


def travel_mm(sewn: SewnHooping) -> float:
    """Return how far the needle moves in a hooping without sewing, between its paths."""
    paths = sewn_paths(sewn.stitches)
    ways = [after[0] - before[-1] for before, after in pairwise(paths)]
    return float(sum(np.hypot(*way) for way in ways))


def _lines(plan: Plan) -> Iterator[str]:
    yield f"plan {plan.project.name}"
    yield f"  {_figures(plan.figures)}"
    for stage in plan.stages:
        yield from _stage(stage)
    for cut in plan.cutting:
        yield f"cut {cut.count} {cut.what} {cut.width:.3f} x {cut.length:.3f}"
    for finding in plan.findings:
        yield f"{finding.level} {finding.code} {finding.stage or '-'}: {finding.text}"


def _stage(stage: Stage) -> Iterator[str]:
    piece, thread = stage.piece, stage.thread
    yield (
        f"stage {stage.name} on {piece.name} {piece.width:.3f} x {piece.length:.3f}"
        f" {thread.top} {thread.bobbin} thickness {stage.thickness_mm:.3f}"
        f" lines {len(stage.lines)} bobbins {stage.bobbins}"
    )
    yield f"  {_figures(stage.figures)}"
    for sewn in stage.hoopings:
        hooping, place = sewn.hooping, _place(sewn.hooping.centre)
        yield f"  hooping {hooping.number} at {place} turn {hooping.turn_deg:g}"
        yield f"    {_figures(sewn.figures)} travel {travel_mm(sewn):.3f}"
        for path in sewn_paths(sewn.stitches):
            yield f"    {_path(path)}"
        yield f"    rows {''.join(_rows(sewn))}"


def _figures(figures: Figures) -> str:
    return (
        f"stitches {figures.stitches} runs {figures.runs} cuts {figures.thread_cuts}"
        f" snips {figures.snips} jumps {figures.jumps} pauses {figures.pauses}"
        f" seconds {figures.seconds:.3f} thread {figures.top_thread_mm:.3f}"
    )


def _path(path: Points) -> str:
    """Tell a path by its ends, its length, and the middle of its needle points."""
    length = float(np.hypot(*np.diff(path, axis=0).T).sum())
    ends = f"{_place(path[0].tolist())} to {_place(path[-1].tolist())}"
    middle = _place(path.mean(axis=0).tolist())
    return f"{ends} points {len(path)} length {length:.3f} middle {middle}"


def _rows(sewn: SewnHooping) -> Iterator[str]:
    """Tell what is between stitches: j, c and p, with the number of stitches between."""
    letters = {Op.JUMP: "j", Op.CUT: "c", Op.PAUSE: "p"}
    stitches = 0
    for op in sewn.stitches.op.tolist():
        if op == Op.STITCH:
            stitches += 1
            continue
        yield f"{stitches or ''}{letters[Op(op)]}"
        stitches = 0
    yield f"{stitches}"


def _place(place: tuple[float, float] | list[float]) -> str:
    return f"{place[0] + 0.0:.3f},{place[1] + 0.0:.3f}"
