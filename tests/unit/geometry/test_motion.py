"""Best motions: exact where there is one, least squares where there is not."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.geometry.motion import Motion, best_motion

TWO = np.array([[-90.0, -140.0], [90.0, 140.0]])
FOUR = np.array([[-90.0, -140.0], [90.0, 140.0], [85.0, -130.0], [-70.0, 120.0]])

angles = st.floats(-3.1, 3.1)
shifts = st.tuples(st.floats(-300, 300), st.floats(-300, 300))


@given(angle=angles, shift=shifts, scale=st.floats(0.9, 1.1))
def test_an_exact_motion_is_found_again(
    angle: float, shift: tuple[float, float], scale: float
) -> None:
    real = Motion(angle_rad=angle, shift=shift, scale=scale)
    for places in (TWO, FOUR):
        found = best_motion(places, real.moved(places), may_stretch=True)
        assert found.angle_rad == pytest.approx(angle, abs=1e-12)
        assert found.scale == pytest.approx(scale, abs=1e-12)
        assert np.allclose(found.moved(places), real.moved(places), atol=1e-9)


@given(angle=angles, shift=shifts, scale=st.floats(0.9, 1.1))
def test_undoing_a_motion_brings_points_back(
    angle: float, shift: tuple[float, float], scale: float
) -> None:
    motion = Motion(angle_rad=angle, shift=shift, scale=scale)
    assert np.allclose(motion.undone(motion.moved(FOUR)), FOUR, atol=1e-9)


def test_two_marks_pulled_apart_are_missed_by_half_the_stretch_each() -> None:
    """By symmetry the rigid motion of two points keeps their middle (geometry)."""
    pulled = TWO * 1.01
    rigid = best_motion(TWO, pulled)
    missed = np.hypot(*(rigid.moved(TWO) - pulled).T)
    assert (rigid.angle_rad, rigid.scale) == (0.0, 1.0)
    assert missed == pytest.approx(np.hypot(90, 140) * 0.01)


def test_a_mirror_image_is_never_made() -> None:
    """The best turn for a mirrored triangle still turns: its determinant is 1 (geometry)."""
    motion = best_motion(FOUR, FOUR * [-1.0, 1.0])
    corner = motion.moved(np.array([[0.0, 0], [1, 0], [0, 1]]))
    (a, b), (c, d) = corner[1] - corner[0], corner[2] - corner[0]
    assert a * d - b * c == pytest.approx(1.0)


@pytest.mark.parametrize("after", [np.zeros((2, 2)), TWO[[0, 0]]])
def test_places_that_are_one_have_no_motion(after: np.ndarray) -> None:
    with pytest.raises(ValueError, match="differ"):
        best_motion(TWO, after)
    with pytest.raises(ValueError, match="differ"):
        best_motion(after, TWO)
