"""What is told of a design."""

from dataclasses import replace

import pytest

from stitchpath.checks.design import check
from stitchpath.model.design import Design, SewnDesign
from stitchpath.model.finding import Level
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Plan
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.shape import Shape
from stitchpath.pipeline import plan
from tests.support.checked import plan_of, stage_of
from tests.support.designs import stitched

PLAIN = SewnDesign(
    source="heron.exp", copies=2, stitches=40, runs=3, left_out=0, way="kept", size=(76, 104.6)
)


def said(*designs: SewnDesign) -> list[str]:
    found = list(check(plan_of(replace(stage_of(), designs=designs))))
    assert all(one.code == "design" and one.level is Level.NOTE for one in found)
    return [one.text for one in found]


def test_a_kept_design_is_told_in_one_sentence() -> None:
    assert said(PLAIN) == [
        (
            "heron.exp: 40 stitches in 3 runs, 76 mm x 104.6 mm, sewn 2 times; its needle "
            "points are kept exactly"
        )
    ]


def test_a_design_without_copies_is_not_told() -> None:
    assert said(replace(PLAIN, copies=0)) == []


@pytest.mark.parametrize(
    ("changed", "text"),
    [
        ({"copies": 1, "way": "turned"}, "sewn once; turned by other than quarter turns, its "),
        ({"way": "scaled"}, "it is scaled, so its stitches are made anew"),
        ({"ties": 12}, "heron.exp: ties add 12 needle points"),
        ({"left_out": 1}, "left out, with the thread cut on both sides: 1 needle point"),
        (
            {"divided": 1},
            "1 copy is divided over hoopings, for no field holds it whole: at thr",
        ),
        (
            {"divided": 2, "divided_runs": 3},
            "2 copies are divided over hoopings, for no field ",
        ),
        ({"divided": 2, "divided_runs": 1}, "holds it whole: inside 1 run too"),
        (
            {"colours": ("#111111", "#222222", "#333333")},
            (
                "begun with the stage's thread for #111111; the machine stops for #222222, "
                "then for #333333"
            ),
        ),
        (
            {"colours": ("", "", "")},
            (
                "begun with the stage's thread; the machine stops for 2 later colours, which "
                "the file does not tell"
            ),
        ),
        ({"said": ("its header lies",)}, "heron.exp: its header lies"),
    ],
)
def test_whatever_became_of_it_is_told(changed: dict[str, object], text: str) -> None:
    assert text in "\n".join(said(replace(PLAIN, **changed)))  # type: ignore[arg-type]


def planned(*designs: Design, field: float = 60.0) -> Plan:
    quilt = Quilt(width=200, length=100, edge_stitch=0, quilting=(), design=designs)
    return plan(Project(quilt=quilt, machine=Machine(field=(field, field))))


def test_a_hooping_that_begins_with_a_later_colour_is_told() -> None:
    """The machine stops between two threads, but not before the first."""
    apart = stitched((0, 0), (30, 0), (60, 0), "colour", (900, 0), (930, 0), (960, 0))
    found = [one for one in planned(Design(file=apart)).findings if "begins" in one.text]
    assert [one.text for one in found] == ["hooping 2 begins with a later colour of heron.exp"]
    assert planned(Design(file=apart), field=120.0).figures.pauses == 1


def test_off_the_piece_and_too_long_are_errors_of_other_checks() -> None:
    off = planned(Design(file=stitched(), at=(0, 50)))
    assert {one.code for one in off.findings if one.level is Level.ERROR} == {"edge"}
    long = planned(Design(file=stitched((0, 0), (90, 0), (180, 0))))
    assert {one.code for one in long.findings if one.level is Level.ERROR} == {"stitch-length"}


def test_over_a_keep_out_is_an_error_that_speaks_of_the_design() -> None:
    keep_out = Shape(rectangle=(90, 40, 20, 20))
    quilting = Quilting(layout="parallel", spacing=20, keep_out=(keep_out,))
    quilt = Quilt(
        width=200, length=100, quilting=(quilting,), design=(Design(file=stitched()),)
    )
    found = [one for one in plan(Project(quilt=quilt)).findings if one.code == "keep-out"]
    assert [one.level for one in found] == [Level.ERROR]
    assert "move the design" in found[0].help
