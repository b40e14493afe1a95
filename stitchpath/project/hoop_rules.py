"""Rules about the maker's hoops: fields, rings, and which of the keys go together."""

from collections.abc import Iterator, Mapping
from typing import Any

from stitchpath.geometry.tolerance import ROUNDING_MM
from stitchpath.model.machine import SMALLEST_FIELD_MM
from stitchpath.model.project import Project
from stitchpath.project.fault import Fault
from stitchpath.project.wording import length_text


def ring_holds_field(project: Project) -> Iterator[Fault]:
    """The ring is at least as large as the field within it."""
    machine, unit = project.machine, project.units
    if machine.ring is None:
        return
    for number, (ring, field) in enumerate(zip(machine.ring, machine.field, strict=True)):
        if ring < field:
            yield Fault(
                code="ring-too-small",
                path=("machine", "ring", number),
                message=f"the ring is {length_text(ring, unit)} and smaller than its field",
                label=f"must be {length_text(field, unit)} or more",
                notes=("the ring is measured outside, with its rim",),
                help="measure the ring from outside to outside, or leave `ring` out",
            )


def room_leaves_field(project: Project) -> Iterator[Fault]:
    """What is kept clear leaves a field, and two overlaps of it."""
    rules, unit = project.hoopings, project.units
    smallest = min(map(min, project.machine.owned_fields))
    most = (smallest - max(SMALLEST_FIELD_MM, 2 * rules.overlap + ROUNDING_MM)) / 2
    if rules.room > 0 and most < rules.room:
        yield Fault(
            code="room-too-large",
            path=("hoopings", "room"),
            message=f"`hoopings.room` is {length_text(rules.room, unit)} and leaves too little",
            label=f"must be at most {length_text(max(most, 0.0), unit)}",
            notes=(f"the smallest side of a field is {length_text(smallest, unit)}",),
            help="3 mm are enough to mend a hoop that lies off by so much",
        )


def fields_are_told_once(project: Project, data: Mapping[str, Any]) -> Iterator[Fault]:
    """Where several fields are given, a single one that is written too is one of them.

    Args:
        project: Each of its values is within its limits.
        data: What was read for it; tells which keys are written.
    """
    machine = project.machine
    if not machine.fields or machine.field in machine.fields:
        return
    table = data.get("machine")
    written = table if isinstance(table, Mapping) else {}
    if "field" not in written and machine.ring is None:
        return
    key = "field" if "field" in written else "ring"
    yield Fault(
        code="field-not-among-fields",
        path=("machine", key),
        message=f"`machine.{key}` is about a field that is not in `machine.fields`",
        label="must belong to one of `machine.fields`",
        notes=("where `fields` are given, the best of them is used for each place",),
        help="add the field to `fields`, or leave it out",
    )
