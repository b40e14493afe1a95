"""Field and piece: one frame turned and moved into the other, and back."""

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.geometry.points import Points
from stitchpath.model.hooping import Hooping
from tests.strategies import angles, points, polylines
from tests.support.lines import assert_same_line

near_full_turns = st.sampled_from([-1e-18, 1e-18, 360 - 1e-14, -360.0, 720.0])


@st.composite
def hoopings(draw: st.DrawFn) -> Hooping:
    turn_deg = draw(angles() | near_full_turns | st.sampled_from([0.0, 90.0, 180.0, 270.0]))
    return Hooping(number=1, field=(200, 300), centre=draw(points(3000)), turn_deg=turn_deg)


@given(hooping=hoopings(), line=polylines())
def test_to_the_field_and_back_is_where_it_was(hooping: Hooping, line: Points) -> None:
    assert_same_line(hooping.to_piece(hooping.to_field(line)), line, tol_mm=1e-9)
    assert_same_line(hooping.to_field(hooping.to_piece(line)), line, tol_mm=1e-9)


@given(hooping=hoopings(), line=polylines())
def test_turning_keeps_lengths(hooping: Hooping, line: Points) -> None:
    before, after = np.diff(line, axis=0), np.diff(hooping.to_field(line), axis=0)
    np.testing.assert_allclose(np.hypot(*after.T), np.hypot(*before.T), atol=1e-9)


@given(hooping=hoopings())
def test_a_place_in_the_field_lies_at_the_centre_and_the_turned_place(hooping: Hooping) -> None:
    """`piece = centre + R . file` with R = [[cos, -sin], [sin, cos]] of the turn."""
    turn = np.radians(hooping.turn_deg)
    place = np.array([70.0, -20.0])
    rotation = np.array([[np.cos(turn), -np.sin(turn)], [np.sin(turn), np.cos(turn)]])
    expected = np.array(hooping.centre) + rotation @ place
    assert_same_line(hooping.to_piece(place[None, :])[0], expected, tol_mm=1e-9)


@given(hooping=hoopings())
def test_the_corners_lie_half_a_diagonal_from_the_centre(hooping: Hooping) -> None:
    away = np.hypot(*(hooping.corners - hooping.centre).T)
    np.testing.assert_allclose(away, np.hypot(100, 150))
