"""What holds for lines that wander, on any area."""

import numpy as np
import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from stitchpath.geometry.empty_circle import largest_empty_circle
from stitchpath.layouts._wander import wander

WIDEST_SHARE = 1.6
"""The widest gap allowed, in spacings."""


@st.composite
def _regions(draw: st.DrawFn) -> shapely.Polygon:
    """Return star-shaped polygons, some with a round hole."""
    count = draw(st.integers(4, 10))
    radii = np.array(draw(st.lists(st.floats(60, 160), min_size=count, max_size=count)))
    turns = 2 * np.pi * (np.arange(count) + 0.3 * np.sin(np.arange(count))) / count
    polygon = shapely.Polygon(np.column_stack([radii * np.cos(turns), radii * np.sin(turns)]))
    assume(polygon.is_valid)
    if draw(st.booleans()):
        hole = shapely.Point(draw(st.floats(-20, 20)), 0).buffer(draw(st.floats(8, 25)))
        holed: shapely.Geometry = shapely.difference(polygon, hole)
        assume(isinstance(holed, shapely.Polygon))
        assert isinstance(holed, shapely.Polygon)
        return holed
    return polygon


@settings(max_examples=settings().max_examples // 2, deadline=None)
@given(region=_regions(), spacing=st.floats(7, 22), seed=st.integers(0, 1000))
def test_it_never_meets_itself_and_leaves_no_gap(
    region: shapely.Polygon, spacing: float, seed: int
) -> None:
    """One line for the area, simple, inside, and no circle of 1.6 spacings is empty."""
    lines = wander(region, spacing_mm=spacing, seed=seed)
    shapes = [shapely.LineString(line) for line in lines]
    assert shapes
    assert all(shape.is_simple and shape.is_closed for shape in shapes)
    assert shapely.covers(region.buffer(0.01), shapes).all()
    circle = largest_empty_circle(lines, region, tolerance_mm=0.1)
    assert 2 * circle.radius <= WIDEST_SHARE * spacing


def test_the_same_seed_wanders_the_same_way_and_another_another() -> None:
    box = shapely.box(0, 0, 200, 150)
    (one,), (again,), (other,) = (wander(box, spacing_mm=15, seed=seed) for seed in (4, 4, 5))
    assert np.array_equal(one, again)
    assert not np.array_equal(one, other)
