"""Round spiral: an Archimedean spiral from the centre."""

import numpy as np
import pytest
import shapely

from stitchpath.geometry.points import path_length
from stitchpath.layouts.round_spiral import make
from stitchpath.model.quilt import Quilting
from tests.support.straight_layouts import rectangle_ground


def spiral() -> shapely.LineString:
    """Return a spiral of 30 on 300 x 240 mm."""
    (strand,) = make(rectangle_ground(300, 240), Quilting(spacing=30))
    return shapely.LineString(strand.points)


def test_a_round_spiral_widens_by_its_spacing_a_turn() -> None:
    """Archimedes: r = s t / 2 pi, so along any ray the turns are a spacing apart."""
    line = spiral()
    ray = shapely.LineString([(150, 120), (150 + 185, 120)])
    crossings = shapely.get_coordinates(shapely.intersection(line, ray))[:, 0] - 150
    gaps = np.diff(np.sort(crossings))
    assert gaps == pytest.approx(np.full(len(gaps), 30.0), abs=0.02)
    points = shapely.get_coordinates(line) - (150, 120)
    assert (np.diff(np.hypot(*points.T)) > 0).all()


def test_a_round_spiral_is_as_long_as_the_integral_of_its_arc() -> None:
    """The arc of r = s t / 2 pi is s / 4 pi (t sqrt(1 + t^2) + asinh t), by calculus."""
    line = spiral()
    points = shapely.get_coordinates(line) - (150, 120)
    turn = float(np.hypot(*points[-1])) / 30 * 2 * np.pi
    length = 30 / (4 * np.pi) * (turn * np.hypot(1, turn) + np.arcsinh(turn))
    assert path_length(points) == pytest.approx(length, rel=1e-4)
