"""Fields and rings that go together, each rule on both sides of its limit."""

from typing import Any

import pytest

from stitchpath.model.machine import RIM_MM, Machine
from stitchpath.model.project import HoopingRules, Project
from stitchpath.model.quilt import Quilt
from stitchpath.project.fault import key_path
from stitchpath.project.hoop_rules import fields_are_told_once, ring_holds_field
from stitchpath.project.rules import overlap_is_small


def _project(**machine: Any) -> Project:  # noqa: ANN401 - any field of a machine
    return Project(quilt=Quilt(width=1050, length=1400), machine=Machine(**machine))


@pytest.mark.parametrize("ring", [(200, 300), (240, 340), None])
def test_a_ring_as_large_as_its_field_is_sound(ring: tuple[float, float] | None) -> None:
    assert not list(ring_holds_field(_project(field=(200, 300), ring=ring)))


def test_a_ring_smaller_than_its_field_is_told() -> None:
    (fault,) = ring_holds_field(_project(field=(200, 300), ring=(240, 299)))
    assert (fault.code, key_path(fault.path)) == ("ring-too-small", "machine.ring[1]")
    assert fault.message == "the ring is 299 mm and smaller than its field"


@pytest.mark.parametrize(
    ("machine", "written"),
    [
        ({"fields": ((100, 100), (200, 300))}, {}),
        ({"fields": ((100, 100),)}, {}),
        ({"fields": ((100, 100),), "field": (100, 100)}, {"field": [100, 100]}),
        ({"field": (130, 180), "ring": (170, 220)}, {"field": [130, 180]}),
    ],
)
def test_fields_that_agree_are_sound(machine: dict[str, Any], written: dict[str, Any]) -> None:
    assert not list(fields_are_told_once(_project(**machine), {"machine": written}))


@pytest.mark.parametrize(
    ("machine", "key"),
    [
        ({"fields": ((100, 100),), "field": (200, 300)}, "field"),
        ({"fields": ((100, 100),), "ring": (240, 340)}, "ring"),
    ],
)
def test_a_field_that_is_not_among_the_fields_is_told(
    machine: dict[str, Any], key: str
) -> None:
    (fault,) = fields_are_told_once(_project(**machine), {"machine": {key: []}})
    assert (fault.code, fault.path) == ("field-not-among-fields", ("machine", key))


def test_fields_are_the_owned_ones_or_the_single_one() -> None:
    assert Machine(field=(100, 100)).owned_fields == ((100, 100),)
    several = Machine(fields=((100, 100), (200, 300), (100, 100)))
    assert several.owned_fields == ((100, 100), (200, 300))


def test_without_a_ring_the_rim_is_stated_and_with_one_all_have_its_rim() -> None:
    assert Machine().ring_of((100, 150)) == (100 + 2 * RIM_MM, 150 + 2 * RIM_MM)
    given = Machine(field=(200, 300), ring=(250, 360))
    assert given.ring_of((100, 150)) == (150, 210)


def test_the_overlap_is_held_against_the_smallest_field() -> None:
    rules = HoopingRules(overlap=12)
    sizes = Quilt(width=1050, length=1400)
    for least, faults in ((24, 1), (25, 0)):
        machine = Machine(fields=((200, 300), (least, 100)))
        project = Project(quilt=sizes, machine=machine, hoopings=rules)
        assert len(list(overlap_is_small(project))) == faults
