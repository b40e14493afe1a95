"""Is the machine to sew faster than is good for a quilt?

Measure: `machine.speed` against 800 stitches a minute. Makers of layered work sew at 600 to 800
(common practice, no source); faster, needles bend, thread breaks, and a struck ring does harm.

Limits: what a machine may do with a quilt in its hoop stands in its manual.
"""

from collections.abc import Iterator
from typing import Final

from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan

CODE = "speed"
FASTEST: Final = 800.0


def check(plan: Plan) -> Iterator[Finding]:
    """Say that the machine is to sew faster than is usual."""
    speed = plan.project.machine.speed
    if speed > FASTEST:
        yield Finding(
            code=CODE,
            level=Level.WARNING,
            text=f"{speed:g} stitches a minute are fast for a quilt; up to {FASTEST:g} "
            "are usual",
            help="set the machine, and machine.speed, to 600 to 800",
            value=speed,
            limit=FASTEST,
        )
