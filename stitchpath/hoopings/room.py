"""Room to refit: what is kept clear inside every field, so that stitches can still be moved.

Hoopings are placed as if fields were smaller by the room on all sides; then they get their
whole fields back. A ring is as large as ever.
"""

from dataclasses import replace

from stitchpath.model.hooping import Hooping
from stitchpath.model.project import LARGEST_FIELD_MM, FieldSize, Project


def keep_room(project: Project) -> Project:
    """Return a project whose fields are smaller by its room on all sides."""
    machine, room_mm = project.machine, project.hoopings.room
    if room_mm == 0:
        return project
    width, height = (min(side, LARGEST_FIELD_MM) for side in machine.ring_of(machine.field))
    smaller = replace(
        machine,
        field=_inset(machine.field, room_mm),
        fields=tuple(_inset(field, room_mm) for field in machine.fields),
        ring=(width, height),
    )
    return replace(project, machine=smaller)


def give_back_room(hooping: Hooping, room_mm: float) -> Hooping:
    """Return a hooping, placed with room, in its whole field."""
    return replace(hooping, field=_inset(hooping.field, -room_mm))


def _inset(field: FieldSize, by_mm: float) -> FieldSize:
    width, height = (round(side - 2 * by_mm, 9) for side in field)  # no 19.999... of 20
    return width, height
