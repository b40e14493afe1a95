"""The cutting list in the cases that the examples do not show."""

from dataclasses import replace

from stitchpath.cli.cutting_list import cutting_list, show_shopping
from stitchpath.model.machine import Machine
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt
from stitchpath.model.supplies import Supplies
from stitchpath.pipeline import plan
from tests.support.plans import small_plan


def test_batting_that_no_package_holds_is_bought_by_the_length() -> None:
    quilt, at_once = Quilt(width=3200, length=3200, quilting=()), Machine(field=(3200, 3200))
    huge = plan(Project(quilt=quilt, machine=at_once))
    assert any("no ready-cut one is large enough" in line for line in show_shopping(huge))
    assert "From the batting" not in cutting_list(huge)


def test_a_bound_quilt_is_told_what_there_is_to_hoop_by() -> None:
    bound = plan(Project(quilt=Quilt(width=400, length=400, edge="bound", quilting=())))
    assert "backing and batting reach 50.8 mm beyond the top" in cutting_list(bound)


def test_a_plan_that_needs_nothing_says_nothing() -> None:
    assert show_shopping(replace(small_plan(), cutting=())) == []


def test_several_spools_are_several() -> None:
    supplies = Supplies(spool_metres=10.0)
    many = plan(Project(quilt=Quilt(width=400, length=400), supplies=supplies))
    assert any(line.endswith("spools of 10 m") for line in show_shopping(many))
