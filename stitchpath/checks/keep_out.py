"""Does all thread keep clear of the keep-outs?

Measure: thread of each stage, stitches and uncut moves, against what its layouts keep clear of
(pins, an appliqué, a pocket). Thread across one would be sewn over it, or catch.

Limits: a tenth of a mm inside a keep-out's border is not looked at: lines end there. Nor is
thread between runs, which the machine cuts or the maker snips.
"""

from collections.abc import Iterator

import shapely

from stitchpath.checks._pieces import across_finding, threads_across
from stitchpath.geometry.tolerance import GRID_MM
from stitchpath.model.finding import Finding
from stitchpath.model.plan import Plan
from stitchpath.units import number_of

CODE = "keep-out"


def check(plan: Plan) -> Iterator[Finding]:
    """Point at thread that lies across a keep-out."""
    for stage in plan.stages:
        if stage.name == "seam" or stage.barriers is None:
            continue
        across = threads_across(stage, shapely.buffer(stage.barriers, -GRID_MM))
        if across:
            yield across_finding(
                stage,
                across,
                code=CODE,
                text=f"{number_of(len(across), 'thread lies', 'threads lie')} across "
                "a keep-out, where 0 may",
                help="give the layout a margin, move the design, or set route.travel to cut"
                if stage.designs
                else "give the layout a margin, or set route.travel to cut",
            )
