"""The presser foot and the ring, by hand; geometry where nothing else is said."""

from dataclasses import replace
from math import sqrt

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.checks.foot_clearance import check, to_ring
from stitchpath.model.finding import Finding, Level
from stitchpath.model.hooping import Hooping
from stitchpath.model.machine import Machine
from stitchpath.model.plan import Plan
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt
from stitchpath.model.stitches import Op, Stitches
from stitchpath.pipeline import plan

MACHINE = Machine(field=(200, 200), ring=(240, 240), ring_wall=12, foot=5)
"""The ring's opening is 216 mm: 108 from the middle to either side."""


def _sewn(
    places: list[tuple[float, float]],
    ops: list[Op] | None = None,
    *,
    machine: Machine = MACHINE,
    turn_deg: float = 0.0,
    ring: tuple[float, float] | None = (240, 240),
) -> Plan:
    """Return a plan of one hooping that goes to places of its field."""
    whole = plan(Project(quilt=Quilt(width=150, length=150), machine=machine))
    (stage,) = whole.stages
    hooping = Hooping(number=1, field=(200, 200), centre=(75, 75), turn_deg=turn_deg, ring=ring)
    stitches = Stitches(
        xy=hooping.to_piece(np.array(places, dtype=np.float64)),
        op=np.array(ops or [Op.STITCH] * len(places)),
        tie=np.zeros(len(places), dtype=np.bool_),
    )
    sewn = replace(stage.hoopings[0], hooping=hooping, stitches=stitches)
    return replace(whole, stages=(replace(stage, hoopings=(sewn,)),))


def _only(planned: Plan) -> Finding:
    (found,) = check(planned)
    return found


def test_what_is_left_between_foot_and_ring_is_told_in_a_note() -> None:
    """From x 100 it is 8 mm to the ring, and the foot reaches 5."""
    note = _only(_sewn([(0, 0), (-50, 30), (100, 0)]))
    assert (note.level, note.value, note.limit) == (Level.NOTE, 8, 5)
    assert note.text == (
        "the presser foot keeps 3.0 mm or more clear of the hoop's ring, least in hooping 1"
    )
    assert note.where == pytest.approx((175, 75))


def test_a_foot_that_would_strike_is_an_error_with_number_limit_place_and_advice() -> None:
    error = _only(_sewn([(0, 0), (-104, 30)]))
    assert (error.level, error.value, error.limit) == (Level.ERROR, 4, 5)
    assert error.text == (
        "the presser foot strikes the hoop's ring in hooping 1: it reaches 5.0 mm from the "
        "needle, and the ring is 4.0 mm away"
    )
    assert error.where == pytest.approx((75 - 104, 105))
    assert "machine.field" in error.help


def test_a_foot_that_just_touches_is_told_as_clear_and_a_step_more_is_not() -> None:
    assert _only(_sewn([(103, 0)])).level is Level.NOTE
    assert _only(_sewn([(103.1, 0)])).level is Level.ERROR


def test_a_needle_beyond_the_ring_is_not_told_as_a_distance_below_zero() -> None:
    assert "and the needle comes to the ring" in _only(_sewn([(0, 110)])).text


def test_moves_without_sewing_count() -> None:
    ops = [Op.STITCH, Op.JUMP, Op.STITCH]
    error = _only(_sewn([(0, 0), (0, -105), (0, 10)], ops))
    assert (error.level, error.value) == (Level.ERROR, 3)


@pytest.mark.parametrize("turn_deg", [0.0, 90.0, 180.0, 33.0])
def test_a_turn_changes_nothing(turn_deg: float) -> None:
    assert _only(_sewn([(0, 0), (99, -104)], turn_deg=turn_deg)).value == 4


def test_without_a_ring_one_of_the_usual_width_is_taken() -> None:
    """10 mm from needle to ring, a ring 10 mm wide; common practice, no source."""
    usual = Machine(field=(200, 200))
    assert _only(_sewn([(100, 0)], machine=usual, ring=None)).value == 10


def test_a_round_corner_is_nearer_than_two_straight_sides() -> None:
    """Field corner (100, 100), corners of radius 30 round (78, 78): 30 - 22 sqrt 2 is left."""
    round_ring = replace(MACHINE, ring_corner=30)
    error = _only(_sewn([(100, 100)], machine=round_ring))
    assert error.level is Level.ERROR
    assert error.value == pytest.approx(30 - 22 * sqrt(2))
    assert _only(_sewn([(100, 100)])).value == 8


def test_each_stage_that_strikes_is_told_and_how_many_of_its_hoopings() -> None:
    """A field as large as its ring less one wall, so that the outer lines bring the foot in."""
    tight = Machine(field=(200, 200), ring=(212, 212), ring_wall=6)
    planned = plan(Project(quilt=Quilt(width=600, length=600), machine=tight))
    (error,) = check(planned)
    struck = sum(
        bool((to_ring(one.hooping.to_field(one.stitches.xy), (200, 200), 0) < 6.3).any())
        for one in planned.stages[0].hoopings
    )
    assert struck > 1
    assert f"so it does in {struck} of {len(planned.stages[0].hoopings)} hoopings" in error.text
    assert planned.has_errors


def test_nothing_sewn_is_nothing_to_strike() -> None:
    bare = plan(Project(quilt=Quilt(width=150, length=150, edge_stitch=0, quilting=())))
    assert not list(check(bare))


@given(
    x=st.floats(-200, 200),
    y=st.floats(-200, 200),
    sides=st.tuples(st.floats(20, 300), st.floats(20, 300)),
    share=st.sampled_from([0.0, 0.1, 0.5, 0.9]),
)
def test_distances_are_those_of_shapely(
    x: float, y: float, sides: tuple[float, float], share: float
) -> None:
    """The opening as shapely rounds it: shrunk by the radius, then widened again."""
    corner = share * min(sides) / 2
    half = np.array(sides) / 2
    inner = shapely.box(*(corner - half), *(half - corner))
    opening = shapely.buffer(inner, corner, quad_segs=200) if corner else inner
    at = shapely.Point(x, y)
    away = shapely.distance(opening.exterior, at) * (1 if opening.contains(at) else -1)
    (found,) = to_ring(np.array([[x, y]]), sides, corner)
    assert found == pytest.approx(away, abs=0.01)


@given(
    ends=st.tuples(*[st.tuples(st.floats(-140, 140), st.floats(-90, 90))] * 2),
    corner=st.floats(0, 100),
)
def test_a_way_is_never_nearer_to_the_ring_than_both_its_ends(
    ends: tuple[tuple[float, float], tuple[float, float]], corner: float
) -> None:
    shares = np.linspace(0, 1, 50)[:, None]
    way = (1 - shares) * ends[0] + shares * ends[1]
    away = to_ring(way, (300, 200), corner)
    assert away.min() >= min(away[0], away[-1]) - 1e-9
