"""What to cut, from finished sizes: shrinkage, seams, and room to hoop.

Cut size = finished size / (1 - shrinkage), and the seam allowance on both sides of a turned
edge. A bound edge needs none; its backing and batting get `ROOM_MM` more, so that there is
something to hoop at the edge. Shrinkage: cotton cloth about 3 % (see docs/sources.md). Draw-in
by quilting and the lie of pieces on the cloth are not counted.
"""

from stitchpath.model.plan import Cut
from stitchpath.model.project import Project

ROOM_MM = 101.6
"""Backing and batting are cut 4 in larger over all (see docs/sources.md)."""


def cut_list(project: Project) -> tuple[Cut, ...]:
    """Return the cloth and batting to cut, lengths in mm."""
    quilt, pocket = project.quilt, project.pocket
    seams = 2 * quilt.seam_allowance if quilt.edge == "turned" else 0.0
    room = 0.0 if quilt.edge == "turned" else ROOM_MM
    cloth, filling = project.fabric.shrinkage, project.batting.shrinkage
    cuts = [
        _cut("quilt top", quilt.width, quilt.length, shrinkage=cloth, extra=seams),
        _cut("quilt backing", quilt.width, quilt.length, shrinkage=cloth, extra=seams + room),
        _cut("quilt batting", quilt.width, quilt.length, shrinkage=filling, extra=seams + room),
    ]
    if pocket is not None:
        turned = 2 * quilt.seam_allowance
        cuts += [
            _cut("pocket", pocket.width, pocket.length, shrinkage=cloth, extra=turned, count=2),
            _cut(
                "pocket batting", pocket.width, pocket.length, shrinkage=filling, extra=turned
            ),
        ]
    return tuple(cuts)


def _cut(
    what: str, width: float, length: float, *, shrinkage: float, extra: float, count: int = 1
) -> Cut:
    return Cut(
        what=what,
        width=width / (1 - shrinkage) + extra,
        length=length / (1 - shrinkage) + extra,
        count=count,
    )
