"""Needle points and their field."""

from dataclasses import replace

import pytest

from stitchpath.checks.hoop_fit import check
from stitchpath.model.finding import Finding, Level
from stitchpath.model.hooping import Hooping
from stitchpath.model.plan import Plan, SewnHooping
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.pipeline import plan


def _plan() -> Plan:
    return plan(Project(quilt=Quilt(width=150, length=250, quilting=(Quilting(spacing=50),))))


def _moved(x_mm: float, y_mm: float, turn_deg: float = 0.0) -> list[Finding]:
    """Return what is said where the one hooping lies elsewhere under the same stitches."""
    whole = _plan()
    (stage,) = whole.stages
    (sewn,) = stage.hoopings
    x, y = sewn.hooping.centre
    elsewhere = Hooping(
        number=1, field=sewn.hooping.field, centre=(x + x_mm, y + y_mm), turn_deg=turn_deg
    )
    hooping: SewnHooping = replace(sewn, hooping=elsewhere)
    moved = replace(whole, stages=(replace(stage, hoopings=(hooping,)),))
    return [finding for finding in check(moved) if finding.level is Level.ERROR]


def test_hoopings_are_counted_in_a_note() -> None:
    (note,) = check(_plan())
    assert note.level is Level.NOTE
    assert note.text == "1 hooping in a field of 200 mm x 300 mm"
    assert note.value == 1


def test_needle_points_inside_their_field_are_fine() -> None:
    assert _moved(0, 0) == []
    assert _moved(0, 20) == []


def test_a_needle_point_outside_is_an_error_that_says_how_far() -> None:
    """The edge line lies 7.9375 mm inside 150 x 250, and a field of 200 is centred on it."""
    slack = 100 - (75 - 7.9375)
    (error,) = _moved(slack + 3, 0)
    assert error.value == pytest.approx(3, abs=0.1)
    assert "hooping 1 goes 3.0 mm outside its field" in error.text
    assert error.where is not None
    assert error.where[0] == pytest.approx(7.9375)


def test_a_turn_is_counted() -> None:
    """250 - 2 * 7.9 = 234 mm do not go across a field of 200."""
    (error,) = _moved(0, 0, turn_deg=90.0)
    assert error.value == pytest.approx((250 - 2 * 7.9375 - 200) / 2, abs=0.1)


def test_what_rounding_moves_onto_the_fields_edge_is_inside() -> None:
    slack = 100 - (75 - 7.9375)
    assert _moved(slack + 0.04, 0) == []
    assert len(_moved(slack + 0.11, 0)) == 1
