"""Families of parallel lines: directions, distances, which one is the middle."""

import numpy as np
import pytest
import shapely

from stitchpath.geometry.families import parallel_family, unit_vector

SQUARE = shapely.box(0, 0, 100, 100)


def _at(angle_deg: float, spacing_mm: float, *, start: str = "centre") -> list[float]:
    """Return where upright or level lines lie across their direction."""
    family = parallel_family(
        SQUARE,
        angle_deg=angle_deg,
        spacing_mm=spacing_mm,
        centre=(50.0, 50.0),
        start="edge" if start == "edge" else "centre",
    )
    axis = 1 if angle_deg % 180 == 0 else 0
    return [float(x) for x in np.round(family.ends[:, 0, axis], 9)]


@pytest.mark.parametrize(
    ("angle_deg", "expected"),
    [(0, (1, 0)), (90, (0, 1)), (180, (-1, 0)), (270, (0, -1)), (-90, (0, -1)), (720, (1, 0))],
)
def test_quarter_turns_are_exact(angle_deg: float, expected: tuple[float, float]) -> None:
    assert tuple(unit_vector(angle_deg)) == expected


@pytest.mark.parametrize("angle_deg", [-1e-18, -1e-300, 360 - 1e-14])
def test_an_angle_a_hair_below_a_full_turn_points_right(angle_deg: float) -> None:
    np.testing.assert_allclose(unit_vector(angle_deg), (1, 0), atol=1e-15)


def test_sixty_degrees_go_half_as_far_right_as_their_length() -> None:
    np.testing.assert_allclose(unit_vector(60), (0.5, np.sqrt(3) / 2), atol=1e-15)


def test_lines_from_the_centre_run_through_it_and_reach_the_edges() -> None:
    assert _at(0, 25) == [0, 25, 50, 75, 100]
    assert _at(90, 30) == [20, 50, 80]


def test_lines_from_the_edge_begin_on_the_upper_or_left_one() -> None:
    assert _at(0, 30, start="edge") == [0, 30, 60, 90]
    assert _at(90, 30, start="edge") == [0, 30, 60, 90]
    assert _at(180, 30, start="edge") == [0, 30, 60, 90]


def test_the_middle_line_is_the_one_nearest_to_the_centre() -> None:
    family = parallel_family(SQUARE, angle_deg=0, spacing_mm=30, centre=(50, 50), start="edge")
    assert family.ends[family.middle, 0, 1] == 60


def test_a_spacing_wider_than_the_region_leaves_the_centre_line() -> None:
    assert _at(0, 999) == [50]


def test_a_region_away_from_the_centre_may_get_no_line() -> None:
    family = parallel_family(
        shapely.box(0, 0, 10, 10), angle_deg=0, spacing_mm=100, centre=(50, 50), start="centre"
    )
    assert len(family.ends) == 0
    assert family.middle == -1


def test_diagonal_lines_reach_past_the_region() -> None:
    family = parallel_family(
        SQUARE, angle_deg=45, spacing_mm=10, centre=(50, 50), start="centre"
    )
    inside = shapely.intersection([shapely.LineString(ends) for ends in family.ends], SQUARE)
    assert (shapely.length(inside)[1:-1] > 0).all()
    assert not shapely.intersects(SQUARE, shapely.points(family.ends[:, 0])).any()
