"""Square spiral: one line winding in right angles."""

from typing import Literal

import numpy as np
import pytest
import shapely

from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.layouts.square_spiral import make
from stitchpath.model.quilt import Quilting
from tests.support.curved_layouts import widest_gap
from tests.support.straight_layouts import clipped, rectangle_ground

Start = Literal["centre", "edge"]
SIZES = [(300.0, 200.0), (200.0, 320.0), (240.0, 240.0)]


def spiral(width: float, height: float, spacing: float, start: Start) -> Points:
    spec = Quilting(spacing=spacing, start=start)
    (strand,) = make(rectangle_ground(width, height), spec)
    return strand.points


def test_corners_from_the_centre_by_hand() -> None:
    # 120 x 100: 20 longer than wide, so the first pass is 20 + 20 long, half of 20 above 50
    points = spiral(120, 100, 20, "centre")
    assert points[:6].tolist() == [
        [50, 40], [90, 40], [90, 60], [30, 60], [30, 20], [110, 20],
    ]  # fmt: skip


def test_corners_from_the_edge_by_hand() -> None:
    points = spiral(60, 50, 20, "edge")
    assert points.tolist() == [
        [0, 0], [60, 0], [60, 50], [0, 50], [0, 20], [40, 20], [40, 30], [20, 30],
    ]  # fmt: skip


@pytest.mark.parametrize("start", ["centre", "edge"])
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_it_turns_at_right_angles_and_never_meets_itself(
    width: float, height: float, start: Start
) -> None:
    points = spiral(width, height, 17, start)
    assert shapely.LineString(points).is_simple
    assert segment_lengths(points).min() > 0
    steps = np.diff(points, axis=0)
    assert ((steps == 0).sum(axis=1) == 1).all()
    assert ((steps[1:] * steps[:-1]).sum(axis=1) == 0).all()


@pytest.mark.parametrize("start", ["centre", "edge"])
@pytest.mark.parametrize(("width", "height"), SIZES)
def test_passes_are_a_spacing_apart_everywhere(
    width: float, height: float, start: Start
) -> None:
    ground = rectangle_ground(width, height)
    strands = make(ground, Quilting(spacing=20, start=start))
    # sqrt(2): at a corner the circle touches both arms and the corner of the pass inside
    assert widest_gap(strands, ground, ground_box(width, height)) <= 20 * np.sqrt(2)


def ground_box(width: float, height: float) -> shapely.Polygon:
    return shapely.box(0, 0, width, height)


@pytest.mark.parametrize(("width", "height"), SIZES)
def test_from_the_centre_the_arms_are_symmetric_about_it(width: float, height: float) -> None:
    points = spiral(width, height, 20, "centre")
    middle = np.array([width, height]) / 2
    steps = np.diff(points, axis=0)
    for axis in (0, 1):
        sides = np.unique(points[:-1][steps[:, axis] == 0][:, axis] - middle[axis])
        before, after = -sides[sides < 0][::-1], sides[sides > 0]
        np.testing.assert_allclose(before, after[: len(before)])


def test_it_reaches_all_four_edges_together() -> None:
    ground = rectangle_ground(300, 200)
    parts = clipped(make(ground, Quilting(spacing=20)), ground)
    box = shapely.MultiLineString(parts).bounds
    np.testing.assert_allclose(box, [0, 0, 300, 200], atol=20)


@pytest.mark.parametrize("start", ["centre", "edge"])
def test_a_spacing_wider_than_the_area_is_no_fault(start: Start) -> None:
    assert len(spiral(40, 30, 500, start)) >= 2
