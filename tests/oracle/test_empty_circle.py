"""The largest empty circle against the Voronoi diagram of densely set points.

A largest empty circle has its centre on a vertex of the Voronoi diagram of what surrounds it
(computational geometry, standard result). The oracle sets a point every millimetre on every
line and on the border, and takes the widest vertex of scipy's diagram.
"""

import numpy as np
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import Voronoi, cKDTree

from stitchpath.geometry.empty_circle import largest_empty_circle
from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import GAP_MM
from tests.strategies import straight_lines

REGION = shapely.box(-100, -70, 100, 70)


def _oracle_mm(lines: list[Points]) -> float:
    """Return the diameter of the widest empty circle, right to about a tenth of a mm."""
    drawn = shapely.union_all([REGION.boundary, *map(shapely.LineString, lines)])
    inside = shapely.segmentize(shapely.intersection(drawn, REGION), 1.0)
    dots = np.unique(shapely.get_coordinates(inside), axis=0)
    vertices = Voronoi(dots).vertices
    vertices = vertices[shapely.contains_xy(REGION, vertices)]
    return float(2 * cKDTree(dots).query(vertices)[0].max())


@settings(max_examples=200, deadline=None)
@given(lines=straight_lines())
def test_the_widest_gap_is_that_of_the_voronoi_diagram(lines: list[Points]) -> None:
    found = largest_empty_circle(lines, REGION, tolerance_mm=GAP_MM / 2)
    assert abs(2 * found.radius - _oracle_mm(lines)) <= GAP_MM


@settings(max_examples=80, deadline=None)
@given(lines=straight_lines())
def test_the_circle_found_is_empty_and_inside(lines: list[Points]) -> None:
    found = largest_empty_circle(lines, REGION, tolerance_mm=GAP_MM / 2)
    centre = shapely.Point(found.centre)
    walls = shapely.union_all([REGION.boundary, *map(shapely.LineString, lines)])
    assert REGION.contains(centre)
    assert walls.distance(centre) >= found.radius - 1e-6


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 1_000_000), arcs=st.integers(1, 8))
def test_so_it_is_of_curves(seed: int, arcs: int) -> None:
    """Arcs of circles, some closed, flattened to a tenth of a mm and finer."""
    rng = np.random.default_rng(seed)
    lines = []
    for _ in range(arcs):
        radius, (start, sweep) = rng.uniform(5, 60), rng.uniform(0.5, 2 * np.pi, 2)
        angles = start + np.linspace(0, sweep, 120)
        ring = np.column_stack([np.cos(angles), np.sin(angles)]) * radius
        lines.append(ring + rng.uniform((-100, -70), (100, 70)))
    found = largest_empty_circle(lines, REGION, tolerance_mm=GAP_MM / 2)
    assert abs(2 * found.radius - _oracle_mm(lines)) <= GAP_MM
