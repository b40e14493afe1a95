"""Refits: the moved stitches lie where the marks are, and neighbours know of it."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.geometry.motion import Motion
from stitchpath.hoopings.refit import (
    Fit,
    fit_hooping,
    is_of,
    make_refit,
    past_field,
    stretched,
    with_refits,
)
from stitchpath.model.hooping import Hooping, Mark
from stitchpath.model.plan import Stage
from tests.support.plans import FIELD, quilt_stage

NEEDLE_MM = 0.02
"""What a refit with exact marks may leave."""


def hooping(number: int = 1, turn_deg: float = 90.0) -> Hooping:
    """Return a hooping at 200, 250 with three marks."""
    bare = Hooping(number=number, field=(200, 300), centre=(200, 250), turn_deg=turn_deg)
    places = np.array([[110.0, 160], [290, 340], [110, 340]])
    marks = tuple(
        Mark(name=name, piece=(x, y), field=(u, v))
        for name, (x, y), (u, v) in zip(
            "ABC", places.tolist(), bare.to_field(places).tolist(), strict=True
        )
    )
    return replace(bare, marks=marks)


def seen_after(
    real: Motion, planned: Hooping, names: str = "ABC"
) -> dict[str, tuple[float, float]]:
    """Return where marks are in a field that lies off by a motion."""
    places = {
        mark.name: real.moved(np.array([mark.field]))[0].tolist() for mark in planned.marks
    }
    return {name: (places[name][0], places[name][1]) for name in names}


@given(
    angle=st.floats(-0.3, 0.3),
    shift=st.tuples(st.floats(-20, 20), st.floats(-20, 20)),
    turn_deg=st.sampled_from([0.0, 90.0, 180.0, 270.0]),
    names=st.sampled_from(["AB", "CB", "ABC"]),
)
def test_exact_marks_put_every_stitch_where_it_was_planned_on_the_piece(
    angle: float, shift: tuple[float, float], turn_deg: float, names: str
) -> None:
    """The hoop lies off by a motion; what its file then sews lies as planned on the piece.

    A needle at q in the field that lies off meets the place on the piece that is planned at
    the motion undone of q (definition of a motion).
    """
    planned = hooping(turn_deg=turn_deg)
    real = Motion(angle_rad=angle, shift=shift)
    fit = fit_hooping(planned, seen_after(real, planned, names), may_stretch=False)
    points = np.array([[120.0, 170], [280, 330], [200, 250], [111, 333]])
    in_file = fit.hooping.to_field(points)
    met = planned.to_piece(real.undone(in_file))
    assert np.abs(met - points).max() <= NEEDLE_MM
    assert fit.residual_mm <= 1e-9
    assert fit.stretch == pytest.approx(0, abs=1e-12)


@given(scale=st.floats(0.96, 1.04), angle=st.floats(-0.1, 0.1))
def test_stretched_cloth_is_followed_where_that_is_allowed(scale: float, angle: float) -> None:
    planned = hooping()
    real = Motion(angle_rad=angle, shift=(2, -3), scale=scale)
    fit = fit_hooping(planned, seen_after(real, planned), may_stretch=True)
    assert fit.stretch == pytest.approx(scale - 1, abs=1e-12)
    stitches = quilt_stage("#000000").hoopings[0].stitches
    in_file = fit.hooping.to_field(stretched(stitches, planned, fit.motion.scale).xy)
    assert np.abs(planned.to_piece(real.undone(in_file)) - stitches.xy).max() <= NEEDLE_MM


def test_stretch_is_measured_though_it_is_not_followed() -> None:
    planned = hooping()
    real = Motion(angle_rad=0, shift=(0, 0), scale=1.005)
    fit = fit_hooping(planned, seen_after(real, planned, "AB"), may_stretch=False)
    assert fit.stretch == pytest.approx(0.005)
    assert fit.motion.scale == 1
    # half of 0.5 % of 254.56 mm at either mark (geometry)
    assert fit.residuals == pytest.approx({"A": 0.6364, "B": 0.6364}, abs=1e-4)


def test_stitches_not_stretched_are_the_same() -> None:
    stitches = quilt_stage("#000000").hoopings[0].stitches
    assert stretched(stitches, hooping(), 1.0) is stitches


def test_what_goes_past_the_field_is_told_edge_by_edge() -> None:
    sewn = quilt_stage("#000000").hoopings[0]  # its lines reach from 0 to 183 and 243
    assert past_field(sewn.stitches, sewn.hooping).max() <= 0
    lies = replace(sewn.hooping, centre=(110.0, 105.0))  # 20 mm right, 15 mm up
    left, top, right, bottom = past_field(sewn.stitches, lies).tolist()
    assert left == pytest.approx(110 - FIELD[0] / 2)  # 10: the line at x = 0
    assert bottom == pytest.approx(243 - 105 - FIELD[1] / 2)  # 8: the line's end at y = 243
    assert max(top, right) < 0


def marked_stage() -> Stage:
    """Return the small plan's quilt, all four hoopings with marks B and C between them."""
    stage = quilt_stage("#000000")
    places = np.array([[175.0, 235.0], [185.0, 245.0], [30.0, 30.0]])

    def marks(one: Hooping) -> tuple[Mark, ...]:
        fields = one.to_field(places).tolist()
        return tuple(
            Mark(name=name, piece=(x, y), field=(u, v))
            for name, (x, y), (u, v) in zip("BCA", places.tolist(), fields, strict=True)
        )

    return replace(
        stage,
        hoopings=tuple(
            replace(sewn, hooping=replace(sewn.hooping, marks=marks(sewn.hooping)))
            for sewn in stage.hoopings
        ),
    )


def fit_of(stage: Stage, found: dict[str, tuple[float, float]]) -> Fit:
    return fit_hooping(stage.hoopings[0].hooping, found, may_stretch=False)


def test_neighbours_look_for_shared_marks_where_the_sewn_stitches_say() -> None:
    """Mark A of hooping 1 was found 0.3 mm off: its stitches lie so, and others follow."""
    stage = marked_stage()
    first, other = stage.hoopings[0].hooping, stage.hoopings[1].hooping
    found = {mark.name: mark.field for mark in first.marks}
    found["A"] = (found["A"][0] + 0.3, found["A"][1])
    fit = fit_of(stage, found)
    refit = make_refit(stage.name, first, fit, file="n.dst")
    after = with_refits(stage, [refit])
    assert after.hoopings[0].refit == refit
    assert after.hoopings[0].hooping == first
    moved = {mark.name: mark for mark in after.hoopings[1].hooping.marks}
    for mark in refit.marks:
        # where the needle of hooping 1 met the mark, among its stitches (definition)
        among = fit.hooping.to_piece(np.array([found[mark.name]]))
        assert np.allclose(other.to_field(among), [moved[mark.name].field], atol=1e-9)
        assert moved[mark.name].piece == {m.name: m.piece for m in first.marks}[mark.name]


def test_exact_refit_moves_no_mark_of_a_neighbour() -> None:
    stage = marked_stage()
    first = stage.hoopings[0].hooping
    real = Motion(angle_rad=0.01, shift=(1, -2))
    found = seen_after(real, first)
    refit = make_refit(stage.name, first, fit_of(stage, found), file="n.dst")
    for before, after in zip(stage.hoopings, with_refits(stage, [refit]).hoopings, strict=True):
        fields, moved = (
            np.array([mark.field for mark in one.hooping.marks]) for one in (before, after)
        )
        assert np.allclose(fields, moved, atol=1e-9)


def test_refit_of_another_plan_does_not_count() -> None:
    stage = marked_stage()
    first = stage.hoopings[0].hooping
    fit = fit_of(stage, {mark.name: mark.field for mark in first.marks})
    refit = make_refit(stage.name, first, fit, file="n.dst")
    assert is_of(refit, stage)
    for other in (
        replace(refit, stage="seam"),
        replace(refit, number=9),
        replace(refit, field=(100.0, 100.0)),
        replace(refit, planned_centre=(0.0, 0.0)),
        replace(refit, planned_turn_deg=90.0),
    ):
        assert not is_of(other, stage)
        assert with_refits(stage, [other]).hoopings[0].refit is None
