"""Lattices, and long lines of equal parts."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.layouts import _waves
from stitchpath.layouts._waves import Lattice, find_lattice
from stitchpath.model.quilt import Quilting
from tests.support.curved_layouts import sharpest_turn_deg
from tests.support.straight_layouts import rectangle_ground


@given(
    st.floats(-1000, 1000),
    st.floats(0.5, 300),
    st.floats(-1000, 1000),
    st.floats(0, 2000),
)
def test_covering_gives_every_place_in_a_range_and_no_other(
    origin: float, step: float, low: float, size: float
) -> None:
    lattice = Lattice(origin=origin, step=step)
    found = lattice.covering(low, low + size)
    assert all(low - 1e-5 <= lattice.at(k) <= low + size + 1e-5 for k in found)
    for outside in (found.start - 1, found.stop):
        assert not low < lattice.at(outside) < low + size


@given(st.floats(-1000, 1000), st.floats(0.5, 300), st.floats(-1000, 1000))
def test_nearest_place_is_within_half_a_step(origin: float, step: float, at: float) -> None:
    lattice = Lattice(origin=origin, step=step)
    assert abs(lattice.at(lattice.nearest(at)) - at) <= step / 2 + 1e-5


def test_lattice_from_the_centre_has_a_place_on_it() -> None:
    ground = rectangle_ground(400, 300)
    across = find_lattice(ground, Quilting(), 70, axis=_waves.ACROSS, edge=_waves.BETWEEN)
    down = find_lattice(ground, Quilting(), 70, axis=_waves.DOWN, edge=_waves.BETWEEN)
    assert (across.at(0), down.at(0)) == (200, 150)


@pytest.mark.parametrize("size", [200, 250])  # 4 and 5 steps
@pytest.mark.parametrize(("edge", "first"), [(_waves.ON_EDGE, 0), (_waves.BETWEEN, 25)])
def test_fitted_lattice_lies_at_both_edges_as_asked(
    size: float, edge: float, first: float
) -> None:
    ground = rectangle_ground(size, 100)
    lattice = find_lattice(ground, Quilting(fit=True), 50, axis=_waves.ACROSS, edge=edge)
    places = [lattice.at(k) for k in lattice.covering(0, size)]
    assert places[0] == pytest.approx(first)
    assert places[-1] == pytest.approx(size - first)


@pytest.mark.parametrize(("edge", "first"), [(_waves.ON_EDGE, 0), (_waves.BETWEEN, 35)])
def test_lattice_from_the_edge_begins_at_the_region(edge: float, first: float) -> None:
    lattice = find_lattice(
        rectangle_ground(400, 300), Quilting(start="edge"), 70, axis=_waves.DOWN, edge=edge
    )
    assert lattice.at(0) == first


@given(st.integers(1, 40), st.floats(-50, 50), st.floats(0, 900), st.floats(1, 300))
def test_long_line_reaches_over_its_range_without_a_gap(
    parts: int, origin: float, low: float, size: float
) -> None:
    unit = np.column_stack([np.linspace(0, 7, parts + 1), np.zeros(parts + 1)])
    line = _waves.long_line(unit, Lattice(origin=origin, step=7), low, low + size)
    steps = np.diff(line[:, 0])
    assert line[0, 0] <= low + 1e-6
    assert line[-1, 0] >= low + size - 1e-6
    assert line[-1, 0] - line[0, 0] < size + 2 * 7 + 1e-6
    np.testing.assert_allclose(steps, 7 / parts, atol=1e-9)


def test_bow_is_an_arc_of_the_circle_with_its_chord_and_angle() -> None:
    # a third of a circle over a chord of 30: radius 30 / sqrt 3, rise radius / 2 (elementary)
    points = _waves.bow(30, np.pi / 3)
    radius = 30 / np.sqrt(3)
    np.testing.assert_allclose(points[[0, -1]], [(0, 0), (30, 0)])
    np.testing.assert_allclose(np.hypot(points[:, 0] - 15, points[:, 1] - radius / 2), radius)
    assert points[:, 1].min() == pytest.approx(-radius / 2, abs=0.01)


@pytest.mark.parametrize("half", [np.pi / 4, np.pi / 3, np.pi / 2])
def test_bow_wave_has_no_corner(half: float) -> None:
    wave = _waves.tile(_waves.bow_wave(40, half), (80, 0), 3)
    assert sharpest_turn_deg(wave) < 5


def test_rows_take_their_lines_by_turns_and_the_middle_one_is_the_anchor() -> None:
    even, odd = np.array([[0.0, 0.0], [9.0, 0.0]]), np.array([[1.0, 0.0], [8.0, 0.0]])
    strands = _waves.lay_rows(
        ((even,), (odd,)), Lattice(origin=10, step=5), (0, 20), middle=11, axis=_waves.DOWN
    )
    assert [strand.points[0].tolist() for strand in strands] == [
        [0, 0],
        [5, 1],
        [10, 0],
        [15, 1],
        [20, 0],
    ]
    assert [strand.anchor for strand in strands] == [False, False, True, False, False]


def test_chains_cover_a_region_that_is_larger_than_its_frame() -> None:
    ground = rectangle_ground(300, 200)
    strands = _waves.lay_chains(
        ground, Quilting(spacing=50), np.pi / 4, axis=_waves.ACROSS, edge=_waves.ON_EDGE
    )
    reach = shapely.MultiLineString([strand.points for strand in strands]).bounds
    assert reach[0] <= 0
    assert reach[1] <= 0
    assert reach[2] >= 300
    assert reach[3] >= 200
