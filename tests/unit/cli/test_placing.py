"""What is said of places, joins and fields."""

from dataclasses import replace

from stitchpath.cli.placing import explain_placing, placing_data
from stitchpath.model.hooping import Join
from stitchpath.model.plan import FieldAlone, Plan
from tests.support.plans import small_plan


def _plan(bound: int) -> Plan:
    whole = small_plan()
    joins = tuple(
        Join(place=(180.0, y), hoopings=(1, 2), is_on_crossing=y < 100) for y in (60.0, 120.0)
    )
    quilt = replace(whole.stages[0], bound=bound, joins=joins)
    alone = (
        FieldAlone(field=(254.0, 381.0), hoopings=5, seconds=1200, handling=1860),
        FieldAlone(field=(101.6, 101.6)),
    )
    return replace(whole, stages=(quilt, *whole.stages[1:]), fields_alone=alone)


def test_as_few_as_can_be_is_said_so() -> None:
    assert explain_placing(_plan(4))[0] == "quilt: 4 hoopings, as few as can be"


def test_otherwise_the_bound_is_told() -> None:
    assert explain_placing(_plan(3))[0] == "quilt: 4 hoopings; fewer than 3 cannot be"


def test_of_a_stage_without_a_bound_nothing_is_claimed() -> None:
    told = explain_placing(_plan(0))
    assert told
    assert not any("can be" in line or "cannot be" in line for line in told)


def test_joins_and_fields_are_told() -> None:
    _, joined, *fields = explain_placing(_plan(4))
    assert joined == (
        "quilt: joins on crossings of lines: 1, on straight stretches: 1; "
        "both sides sew the overlap"
    )
    assert fields == [
        (
            "with the field of 10 in x 15 in (254 mm x 381 mm) alone: "
            "5 hoopings, 51 min in all, 20 min of it sewing"
        ),
        "with the field of 4 in x 4 in (101.6 mm x 101.6 mm) alone: not to be sewn",
    ]


def test_a_single_hooping_and_no_joins_are_not_spoken_of() -> None:
    assert explain_placing(replace(small_plan(), stages=small_plan().stages[1:])) == []


def test_data_says_the_same() -> None:
    data = placing_data(_plan(3))
    assert data["placing"][0] == {
        "stage": "quilt",
        "bound": 3,
        "joins": {"on_crossings": 1, "elsewhere": 1},
    }
    assert [each["hoopings"] for each in data["fields"]] == [5, 0]
