"""Room to refit: what is kept clear inside every field, so that stitches can still be moved.

Hoopings are placed as if fields were smaller by the room on all sides; then they get their
whole fields back. A ring is as large as ever.
"""

from dataclasses import replace

from stitchpath.model.hooping import Hooping
from stitchpath.model.project import FieldSize, Project


def keep_room(project: Project) -> Project:
    """Return a project whose fields are smaller by its room on all sides."""
    machine, room_mm = project.machine, project.hoopings.room
    if room_mm == 0:
        return project
    smaller = replace(
        machine,
        field=_inset(machine.field, room_mm),
        fields=tuple(_inset(field, room_mm) for field in machine.fields),
        ring=machine.ring_of(machine.field),
    )
    return replace(project, machine=smaller)


def give_back_room(hooping: Hooping, room_mm: float) -> Hooping:
    """Return a hooping, placed with room, in its whole field."""
    return replace(hooping, field=_inset(hooping.field, -room_mm))


def _inset(field: FieldSize, by_mm: float) -> FieldSize:
    width, height = field
    return width - 2 * by_mm, height - 2 * by_mm
