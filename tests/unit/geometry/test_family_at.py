"""Lines of one direction at given places."""

import numpy as np
import pytest
import shapely

from stitchpath.geometry.families import extent_across, family_at, normal_vector

SQUARE = shapely.box(0, 0, 100, 100)


@pytest.mark.parametrize("angle", [0, 30, 45, 90, 135, 180, 217, 270, 300])
def test_a_normal_is_square_to_its_direction_and_points_right_or_down(angle: float) -> None:
    normal = normal_vector(angle)
    direction = np.array([np.cos(np.radians(angle)), np.sin(np.radians(angle))])
    assert abs(normal @ direction) < 1e-12
    assert normal[np.argmax(np.abs(normal))] > 0


def test_a_square_on_its_corner_is_as_wide_as_its_diagonal() -> None:
    low, high = extent_across(SQUARE, 45)
    assert high - low == pytest.approx(100 * np.sqrt(2))


def test_lines_lie_where_they_are_asked_for_and_those_outside_are_left_out() -> None:
    at = np.array([-5.0, 0.0, 12.5, 100.0, 100.1])
    family = family_at(SQUARE, at, angle_deg=90, centre=(50, 50))
    assert family.ends[:, 0, 0].tolist() == [0, 12.5, 100]
    assert family.middle == 1


def test_without_lines_there_is_no_middle_one() -> None:
    family = family_at(SQUARE, np.array([500.0]), angle_deg=0, centre=(50, 50))
    assert (len(family.ends), family.middle) == (0, -1)
