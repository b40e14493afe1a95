"""Where arrows stand."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.preview.arrows import arrow_places
from stitchpath.preview.polylines import Polylines, simplified

coordinates = st.integers(-100, 100).map(float)
walks = st.lists(st.tuples(coordinates, coordinates), min_size=1, max_size=8, unique=True)


def test_a_long_stretch_has_arrows_in_its_direction() -> None:
    line = Polylines.of([np.array([[0.0, 0.0], [100.0, 0.0]])])
    places, ways = arrow_places(line, every_mm=50, least_mm=20)
    assert places.tolist() == [[19.0, 0.0], [69.0, 0.0]]
    assert ways.tolist() == [[1.0, 0.0], [1.0, 0.0]]


def test_short_stretches_between_corners_have_none() -> None:
    corner = Polylines.of([np.array([[0.0, 0.0], [15.0, 0.0], [15.0, 15.0], [15.0, 100.0]])])
    places, ways = arrow_places(corner, every_mm=500, least_mm=20)
    assert ways.tolist() == [[0.0, 1.0]]
    assert places.tolist() == [[15.0, 31.0]]


def test_the_way_from_one_line_to_the_next_has_none() -> None:
    apart = Polylines.of(
        [np.array([[0.0, 0.0], [5.0, 0.0]]), np.array([[90.0, 0.0], [95.0, 0.0]])]
    )
    assert not len(arrow_places(apart, every_mm=50, least_mm=20)[0])


@pytest.mark.parametrize("turn", [0, 45])
def test_arrows_of_crossing_lines_do_not_meet(turn: float) -> None:
    """A grid of lines, in whichever direction each is sewn."""
    place = np.arange(0.0, 161.0, 20.0)
    level = [np.array([[0.0, y], [160.0, y]]) for y in place]
    upright = [np.array([[x, 0.0], [x, 160.0]]) for x in place]
    cos, sin = np.cos(np.radians(turn)), np.sin(np.radians(turn))
    lines = [one @ np.array([[cos, sin], [-sin, cos]]) for one in [*level, *upright]]
    sewn = [one[::-1] if index % 2 else one for index, one in enumerate(lines)]
    places, _ = arrow_places(Polylines.of(sewn), every_mm=500, least_mm=20)
    away = np.hypot(*(places[:, None] - places[None]).transpose(2, 0, 1))
    assert away[np.triu_indices(len(places), 1)].min() > 5


def test_nothing_has_none() -> None:
    assert arrow_places(Polylines.of([]), every_mm=50, least_mm=20)[0].shape == (0, 2)


@given(st.lists(walks.map(np.array), max_size=4))
def test_arrows_stand_on_their_lines(walks: list[np.ndarray]) -> None:
    lines = simplified(Polylines.of(walks), tolerance_mm=0.001)
    places, ways = arrow_places(lines, every_mm=30, least_mm=10)
    assert np.allclose(np.hypot(*ways.T), 1.0)
    drawn = shapely.MultiLineString(list(lines))
    assert all(drawn.distance(shapely.Point(place)) < 1e-6 for place in places)
