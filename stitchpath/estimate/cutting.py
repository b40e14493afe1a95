"""What to cut, from finished sizes: shrinkage, draw-in, seams, binding, and room to hoop.

Formula. Cut size = finished size / ((1 - shrinkage) (1 - draw-in)), and the seam allowance on
both sides of a turned edge. A bound edge needs none; its backing and batting get the project's
margin on each side, so that there is something to hoop at the edge. The layers are sewn to each
other, so they shrink as one: the larger of the cloth's and the batting's shrinkage counts for
all. Binding: strips across the cloth, their sum the way round and 10 in more; each is joined on
the slant, which costs its width once.

Source: shrinkage, margins, binding: docs/sources.md, cloth and cutting; draw-in: see draw_in.
Limits: the larger shrinkage is on the safe side, a quilt that comes out large can be trimmed;
how cloth shrinks differently along and across is not known and not counted.
"""

from collections.abc import Sequence
from math import ceil
from typing import Final

from stitchpath.estimate.draw_in import stage_draw_in
from stitchpath.model.plan import Cut, Stage
from stitchpath.model.project import Project

BINDING_OVER_MM: Final = 254.0
"""For corners and the last join: 10 in. Sources give 10 to 24 in."""


def cut_list(project: Project, stages: Sequence[Stage] = ()) -> tuple[Cut, ...]:
    """Return the cloth and batting to cut, lengths in mm.

    Args:
        project: Finished sizes and what the cloth does.
        stages: Their quilting draws the pieces together; one that is missing does not.
    """
    quilt, pocket = project.quilt, project.pocket
    drawn = {stage.name: stage_draw_in(stage) for stage in stages}
    turned = 2 * quilt.seam_allowance
    seams, room = (turned, 0.0) if quilt.edge == "turned" else (0.0, _margin(project))
    keeps = _kept(project, drawn.get("quilt", 0.0))
    width, length = quilt.width / keeps + seams, quilt.length / keeps + seams
    cuts = [
        Cut(what="quilt top", width=width, length=length),
        Cut(what="quilt backing", width=width + room, length=length + room),
        Cut(what="quilt batting", width=width + room, length=length + room),
    ]
    if pocket is not None:
        keeps = _kept(project, drawn.get("pocket", 0.0))
        width, length = pocket.width / keeps + turned, pocket.length / keeps + turned
        cuts += [
            Cut(what="pocket", width=width, length=length, count=2),
            Cut(what="pocket batting", width=width, length=length),
        ]
    if quilt.edge == "bound":
        cuts.append(_binding(project))
    return tuple(cuts)


def cloth_width(project: Project, cloth: str) -> float:
    """Return the usable width of the cloth of that name, mm."""
    backing = project.fabric.backing_width
    own = cloth == "backing" and backing is not None
    return backing if own and backing is not None else project.fabric.usable_width


def binding_cloth(project: Project) -> str:
    """Return the cloth that the binding is cut from."""
    chosen = project.fabric.binding_from
    return "binding" if chosen == "own" else source_of(project, chosen)


def source_of(project: Project, part: str) -> str:
    """Return the cloth that the top, the backing or the pocket is cut from."""
    fabric = project.fabric
    chosen = {"backing": fabric.backing_from, "pocket": fabric.pocket_from}.get(part, "own")
    return part if chosen == "own" else source_of(project, chosen)


def _kept(project: Project, drawn: float) -> float:
    shrinkage = max(project.fabric.shrinkage, project.batting.shrinkage)
    return (1 - shrinkage) * (1 - drawn)


def _margin(project: Project) -> float:
    return 2 * project.fabric.hooping_margin


def _binding(project: Project) -> Cut:
    quilt, strip = project.quilt, project.fabric.binding_width
    usable = cloth_width(project, binding_cloth(project))
    around = 2 * (quilt.width + quilt.length) + BINDING_OVER_MM
    return Cut(
        what="binding strip",
        width=usable,
        length=strip,
        count=ceil(around / max(usable - strip, strip)),
    )
