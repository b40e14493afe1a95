"""Radial lines."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.geometry.points import Points
from stitchpath.layouts.radial import LAYOUT
from stitchpath.model.quilt import Quilting
from tests.support.straight_layouts import anchors, as_set, clipped, rectangle_ground

GROUND = rectangle_ground(600, 600)


def directions(count: int) -> list[float]:
    """Return the directions of all rays, degrees clockwise from straight up, in order."""
    tips: list[Points] = []
    for strand in LAYOUT.make(GROUND, Quilting(count=count)):
        tips += [tip - (300, 300) for tip in strand.points[[0, -1]]]
    far = [tip for tip in tips if np.hypot(*tip) > 300]
    return sorted(round(np.degrees(np.arctan2(x, -y)) % 360, 6) for x, y in far)


@pytest.mark.parametrize("count", [1, 2, 3, 5, 8, 12, 17, 24])
def test_rays_divide_the_whole_turn_evenly(count: int) -> None:
    wanted = [round(index * 360 / count, 6) for index in range(count)]
    assert directions(count) == pytest.approx(wanted, abs=1e-5)


def test_the_upright_and_the_level_line_run_through_the_centre_and_are_anchors() -> None:
    upright, level = anchors(LAYOUT.make(GROUND, Quilting(count=16)))
    assert upright[:, 0] == pytest.approx(300)
    assert level[:, 1] == pytest.approx(300)


@given(st.integers(1, 200), st.floats(1, 30))
def test_a_ray_begins_no_nearer_than_the_gap_to_any_other(count: int, gap: float) -> None:
    strands = LAYOUT.make(GROUND, Quilting(count=count, gap=gap))
    rays = np.array([s.points for s in strands if not s.anchor]).reshape(-1, 2, 2)
    lines = np.asarray(shapely.linestrings(rays))
    apart = shapely.distance(lines[:, None], lines[None])
    apart[np.diag_indices(len(lines))] = np.inf
    assert (apart > gap - 1e-9).all()


def test_the_gap_sets_where_the_shortest_rays_begin() -> None:
    strands = LAYOUT.make(GROUND, Quilting(count=16, gap=10))
    starts = sorted(np.hypot(*(s.points[0] - (300, 300))) for s in strands if not s.anchor)
    # 10 from a line at 45 degrees, then from one at 22.5 degrees
    assert starts == pytest.approx(
        [10 / np.sin(np.radians(45))] * 4 + [10 / np.sin(np.radians(22.5))] * 8
    )


def test_it_looks_the_same_after_half_a_turn() -> None:
    lines = clipped(LAYOUT.make(GROUND, Quilting(count=20)), GROUND)
    assert as_set(lines) == as_set(lines, turned_about=GROUND.centre)


def test_by_default_rays_end_at_most_the_spacing_apart_at_the_corners() -> None:
    strands = LAYOUT.make(GROUND, Quilting(spacing=60))
    rays = len(strands) + sum(strand.anchor for strand in strands)
    assert rays % 8 == 0
    assert np.pi * np.hypot(600, 600) / rays <= 60
    assert np.pi * np.hypot(600, 600) / (rays - 8) > 60


def test_a_tiny_area_gets_the_lines_through_its_centre_alone() -> None:
    ground = rectangle_ground(4, 4)
    assert len(LAYOUT.make(ground, Quilting(count=64, gap=20))) == 2
