"""Room to refit: stitches keep clear of the field's edge, field and ring stay as they are."""

from dataclasses import replace

import numpy as np
import pytest

from stitchpath.hoopings.room import give_back_room, keep_room
from stitchpath.model.hooping import Hooping
from stitchpath.model.project import HoopingRules, Machine, Project, Quilt
from stitchpath.pipeline import plan


def project(room: float, **machine: object) -> Project:
    return Project(
        quilt=Quilt(width=700, length=900),
        machine=Machine(**machine),  # type: ignore[arg-type]
        hoopings=HoopingRules(room=room),
    )


def test_no_room_changes_nothing() -> None:
    bare = project(0)
    assert keep_room(bare) is bare


@pytest.mark.parametrize("ring", [None, (250.0, 360.0)])
def test_fields_are_smaller_and_every_ring_is_as_large_as_before(
    ring: tuple[float, float] | None,
) -> None:
    before = project(3, field=(200, 300), fields=((200, 300), (100, 100)), ring=ring)
    after = keep_room(before).machine
    assert after.field == (194.0, 294.0)
    assert after.fields == ((194.0, 294.0), (94.0, 94.0))
    for field in before.machine.fields:
        smaller = (field[0] - 6, field[1] - 6)
        assert after.ring_of(smaller) == before.machine.ring_of(field)


def test_a_hooping_gets_its_whole_field_back() -> None:
    hooping = Hooping(number=1, field=(194, 294), centre=(5, 7))
    assert give_back_room(hooping, 3) == replace(hooping, field=(200, 300))


@pytest.mark.parametrize(
    ("field", "room"),
    [((10_000.0, 10_000.0), 30.0), ((70.1, 90.0), 25.05), ((63.5, 63.5), 21.75)],
)
def test_fields_at_their_limits_can_keep_room(field: tuple[float, float], room: float) -> None:
    """What is left is 20 mm or more, whatever float arithmetic makes of it."""
    after = keep_room(project(room, field=field)).machine
    assert min(after.field) >= 20
    assert (
        give_back_room(Hooping(number=1, field=after.field, centre=(0, 0)), room).field == field
    )


@pytest.mark.parametrize("room", [0.0, 2.5])
def test_stitches_of_a_plan_keep_so_far_inside_their_field(room: float) -> None:
    made = plan(project(room))
    inside: list[float] = []
    for sewn in (sewn for stage in made.stages for sewn in stage.hoopings):
        assert sewn.hooping.field == (200.0, 300.0)
        places = np.abs(sewn.hooping.to_field(sewn.stitches.xy)).max(axis=0)
        inside.append(float((np.array(sewn.hooping.field) / 2 - places).min()))
    assert room <= min(inside) <= room + 20
