"""Is there anything to sew?

Measure: the stages that have lines. Without any there is no file to write, so that is an error.
"""

from collections.abc import Iterator

from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan

CODE = "nothing-sewn"


def check(plan: Plan) -> Iterator[Finding]:
    """Say that a plan sews nothing."""
    if not plan.stages:
        yield Finding(
            code=CODE,
            level=Level.ERROR,
            text="the project sews nothing: it has 0 lines, and at least 1 is needed",
            help="add quilting, an edge line or a pocket",
            value=0.0,
            limit=1.0,
        )
