"""What became of the stitch files that are placed on a piece?

Measure: needle points, copies and size of each design; whether its own needle points are kept,
are moved by rounding, or are made anew; what ties add; how many copies several hoopings share,
and how many runs a join divides; its colours, and hoopings that begin with another thread than
the stage's. A copy that one field holds is never divided.

Limits: moved by whole tenths of a mm, mirrored or turned by quarter turns, needle points keep
their steps exactly. Turned by any other angle each is rounded anew, which moves it by up to
0.07 mm. Scaled, stitches are made anew. What the file's stitches hold, and how dense they are,
the other checks say.
"""

from collections.abc import Iterator
from typing import Final

from stitchpath.model.design import SewnDesign, Way
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan, Stage
from stitchpath.units import Unit, format_length, number_of

CODE = "design"
_WAYS: Final[dict[Way, str]] = {
    "kept": "its needle points are kept exactly",
    "turned": "turned by other than quarter turns, its needle points move by up to 0.07 mm",
    "scaled": "it is scaled, so its stitches are made anew",
}


def check(plan: Plan) -> Iterator[Finding]:
    """Say what each design of each stage came to."""
    for stage in plan.stages:
        for design in stage.designs:
            if design.copies:
                for text, value in _told(design, plan.project.units):
                    yield _note(stage, f"{design.source}: {text}", value)
        yield from _other_threads(stage)


def _told(design: SewnDesign, unit: Unit) -> Iterator[tuple[str, int]]:
    yield _size(design, unit), design.sewn
    if design.ties:
        yield f"ties add {number_of(design.ties, 'needle point', 'needle points')}", design.ties
    if design.left_out:
        alone = number_of(design.left_out, "needle point", "needle points")
        yield f"left out, with the thread cut on both sides: {alone}", design.left_out
    if design.divided:
        yield _divided(design), design.divided
    if len(design.colours) > 1:
        yield _colours(design), len(design.colours)
    for fault in design.said:
        yield fault, len(design.said)


def _size(design: SewnDesign, unit: Unit) -> str:
    size = " x ".join(format_length(side, unit) for side in design.size)
    copies = "sewn once" if design.copies == 1 else f"sewn {design.copies} times"
    stitches = number_of(design.stitches, "stitch", "stitches")
    runs = number_of(design.runs, "run", "runs")
    return f"{stitches} in {runs}, {size}, {copies}; {_WAYS[design.way]}"


def _divided(design: SewnDesign) -> str:
    where = "at thread cuts only"
    if design.divided_runs:
        where = f"inside {number_of(design.divided_runs, 'run', 'runs')} too"
    copies = number_of(design.divided, "copy is", "copies are")
    return f"{copies} divided over hoopings, for no field holds it whole: {where}"


def _colours(design: SewnDesign) -> str:
    first, *others = design.colours
    start = f"the stage's thread for {first}" if first else "the stage's thread"
    told = ", then for ".join(others)
    if not all(others):
        count = number_of(len(others), "later colour", "later colours")
        told = f"{count}, which the file does not tell"
    return f"begun with {start}; the machine stops for {told}"


def _other_threads(stage: Stage) -> Iterator[Finding]:
    """Say which hoopings begin with another thread: no machine stops before it has begun."""
    for sewn in stage.hoopings:
        if sewn.threads and sewn.threads[0] > 0:
            source, _ = stage.later_threads[sewn.threads[0] - 1]
            number = sewn.hooping.number
            yield _note(
                stage, f"hooping {number} begins with a later colour of {source}", number
            )


def _note(stage: Stage, text: str, value: int) -> Finding:
    return Finding(code=CODE, level=Level.NOTE, text=text, stage=stage.name, value=float(value))
