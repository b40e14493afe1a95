"""What fields reach: room to refit is kept clear inside, field and ring stay as they are."""

import numpy as np
import pytest

from stitchpath.geometry.tolerance import ROUNDING_MM
from stitchpath.hoopings.places import kinds_of
from stitchpath.model.machine import Machine
from stitchpath.model.project import HoopingRules, Project
from stitchpath.model.quilt import Quilt
from stitchpath.pipeline import plan


def project(room: float, **machine: object) -> Project:
    return Project(
        quilt=Quilt(width=700, length=900),
        machine=Machine(**machine),  # type: ignore[arg-type]
        hoopings=HoopingRules(room=room),
    )


@pytest.mark.parametrize("ring", [None, (250.0, 360.0)])
def test_room_is_taken_off_what_is_reached_and_off_nothing_else(
    ring: tuple[float, float] | None,
) -> None:
    fields = ((200.0, 300.0), (100.0, 100.0))
    bare, with_room = (
        kinds_of(project(room, field=(200, 300), fields=fields, ring=ring)) for room in (0, 3)
    )
    for before, after in zip(bare, with_room, strict=True):
        assert (after.field, after.ring) == (before.field, before.ring)
        assert np.subtract(before.reach, after.reach) == pytest.approx(6)


def test_a_turned_field_reaches_its_height_across() -> None:
    upright, turned = kinds_of(project(3, field=(200, 300)))
    assert upright.reach == pytest.approx((194 - ROUNDING_MM, 294 - ROUNDING_MM))
    assert turned.reach == upright.reach[::-1]


@pytest.mark.parametrize("room", [0.0, 2.5])
def test_stitches_of_a_plan_keep_so_far_inside_their_field(room: float) -> None:
    made = plan(project(room))
    inside: list[float] = []
    for sewn in (sewn for stage in made.stages for sewn in stage.hoopings):
        assert sewn.hooping.field == (200.0, 300.0)
        places = np.abs(sewn.hooping.to_field(sewn.stitches.xy)).max(axis=0)
        inside.append(float((np.array(sewn.hooping.field) / 2 - places).min()))
    assert room <= min(inside) <= room + 20
