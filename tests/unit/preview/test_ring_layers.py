"""The ring in pictures: geometry."""

from dataclasses import replace
from math import pi

import numpy as np
import pytest
import shapely

from stitchpath.model.hooping import Hooping
from stitchpath.model.machine import Machine
from stitchpath.preview import draw_hooping
from stitchpath.preview.ring_layers import ring_edges
from tests.support.plans import FIELD, small_plan
from tests.support.svg_reader import SVG, layer, polylines, texts

HOOPING = Hooping(number=1, field=FIELD, centre=(0, 0), ring=(240, 300))


def test_the_ring_lies_between_its_outer_size_and_that_less_two_walls() -> None:
    outer, inner = ring_edges(HOOPING, Machine(ring_wall=12))
    assert np.ptp(outer, axis=0).tolist() == [240, 300]
    assert np.ptp(inner, axis=0).tolist() == [216, 276]
    assert shapely.Polygon(outer).centroid.equals_exact(shapely.Point(0, 0), 1e-9)


def test_its_edges_run_against_each_other_so_that_it_fills_between_them() -> None:
    # Source: SVG 1.1, 11.3: the non-zero rule counts edges by their directions.
    outer, inner = ring_edges(HOOPING, Machine())
    assert shapely.LinearRing(outer).is_ccw != shapely.LinearRing(inner).is_ccw


def test_round_corners_are_round_inside_and_out() -> None:
    outer, inner = ring_edges(HOOPING, Machine(ring_wall=10, ring_corner=30))
    for edge, size, radius in ((inner, 220 * 280, 30), (outer, 240 * 300, 40)):
        round_off = (4 - pi) * radius**2
        assert shapely.Polygon(edge).area == pytest.approx(size - round_off, abs=50)


@pytest.mark.parametrize("ring", [None, FIELD, (FIELD[0], FIELD[1] + 40)])
def test_a_ring_that_nobody_knows_is_not_drawn(ring: tuple[float, float] | None) -> None:
    assert ring_edges(replace(HOOPING, ring=ring), Machine()) == ()


def test_a_wall_without_an_opening_is_all_ring() -> None:
    assert len(ring_edges(HOOPING, Machine(ring_wall=100))) == 2
    small = replace(HOOPING, field=(100, 100), ring=(180, 180))
    assert len(ring_edges(small, Machine(ring_wall=100))) == 1


def test_a_hoopings_picture_shows_the_whole_ring_and_names_it() -> None:
    planned = small_plan()
    quilt = planned.stages[0]
    sewn = replace(
        quilt.hoopings[0], hooping=replace(quilt.hoopings[0].hooping, ring=(240, 300))
    )
    svg = draw_hooping(planned, quilt, sewn)
    outer, inner = polylines(layer(svg, "ring").findall(f"{SVG}path")[0])
    assert np.ptp(outer, axis=0).tolist() == [240, 300]
    assert np.ptp(inner, axis=0).tolist() == [220, 280]
    assert "the hoop's ring" in texts(svg, "legend")
    assert 'id="ring"' not in draw_hooping(planned, quilt, quilt.hoopings[0])
