"""Does every needle point lie inside its field?

Measure: the farthest needle point from the field's centre along the field's own axes, after
rounding to the grid of stitch files; moves without sewing count too. Anything outside would
drive the needle, or the foot beside it, into the ring.

Limits: the field is taken as it is given. A field is smaller than its ring because foot and
needle clamp need room, 10 mm or more (common practice, no source): measure it so.
"""

from collections.abc import Iterator

import numpy as np

from stitchpath.geometry.points import on_grid, parts_of
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan, SewnHooping, Stage
from stitchpath.units import Unit, format_field, format_small_length

CODE = "hoop-fit"


def check(plan: Plan) -> Iterator[Finding]:
    """Say how many hoopings each stage needs, and which needle points leave their field."""
    unit = plan.project.units
    fields = " or ".join(
        format_field(field, unit) for field in plan.project.machine.owned_fields
    )
    for stage in plan.stages:
        if stage.hoopings:
            count = len(stage.hoopings)
            yield Finding(
                code=CODE,
                level=Level.NOTE,
                text=f"{count} hooping{'s' * (count > 1)} in a field of {fields}",
                stage=stage.name,
                value=float(count),
            )
        for sewn in stage.hoopings:
            yield from _outside(stage, sewn, unit)


def _outside(stage: Stage, sewn: SewnHooping, unit: Unit) -> Iterator[Finding]:
    over, worst = max(_overs(sewn), key=lambda one: one[0])
    if over > GRID_MM / 100:
        x, y = sewn.stitches.xy[worst].tolist()
        by = format_small_length(over, unit)
        yield Finding(
            code=CODE,
            level=Level.ERROR,
            text=f"hooping {sewn.hooping.number} goes {by} outside its field",
            help="use a larger field",
            stage=stage.name,
            where=(x, y),
            value=over,
            limit=0.0,
        )


def _overs(sewn: SewnHooping) -> Iterator[tuple[float, int]]:
    """Yield how far the worst row of each part lies outside the field, mm, and which it is."""
    half = np.array(sewn.hooping.field) / 2
    for part in parts_of(len(sewn.stitches)):
        places = on_grid(sewn.hooping.to_field(sewn.stitches.xy[part]))
        past = np.abs(places) - half
        over = np.maximum(past[:, 0], past[:, 1])
        worst = int(np.argmax(over))
        yield float(over[worst]), part.start + worst
