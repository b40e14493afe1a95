"""Can the chosen formats hold a pause?

A pause to draw the bobbin thread up is a stop of its own in some formats; others know only the
colour change, at which a machine with several needles may go on with another one.
"""

from collections.abc import Iterator

from stitchpath.catalog.formats import stitch_formats
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Plan

CODE = "pause"


def check(plan: Plan) -> Iterator[Finding]:
    """Say which of the chosen formats turn a pause into a colour change."""
    if not plan.figures.pauses:
        return
    formats = stitch_formats(plan.project.machine.formats)
    unable = [format_.name for format_ in formats if format_.pause == "colour"]
    if unable:
        yield Finding(
            code=CODE,
            level=Level.NOTE,
            text=f"{', '.join(unable)} cannot hold a pause; a change of colour stands for it",
            help="thread every needle alike, or set the machine to stop at a change of colour",
            value=float(plan.figures.pauses),
        )
