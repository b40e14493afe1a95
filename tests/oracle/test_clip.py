"""Clipping and parallel families against sums done by hand, slab by slab and line by line."""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.geometry.clip import clip_lines
from stitchpath.geometry.families import parallel_family
from stitchpath.geometry.points import Points, path_length
from tests.strategies import angles, lengths, points, polylines, straight_lines

BOX = (-80.0, -50.0, 120.0, 90.0)


def _length_in_box(line: Points) -> float:
    """Return how much of a straight line lies in the box: the slab method."""
    start, step = line[0], line[1] - line[0]
    first, last = 0.0, 1.0
    for axis in (0, 1):
        low, high = BOX[axis], BOX[axis + 2]
        if step[axis] == 0:
            if not low <= start[axis] <= high:
                return 0.0
            continue
        near, far = sorted(
            ((low - start[axis]) / step[axis], (high - start[axis]) / step[axis])
        )
        first, last = max(first, float(near)), min(last, float(far))
    return max(0.0, last - first) * float(np.hypot(*step))


@given(lines=straight_lines())
def test_straight_lines_keep_the_length_that_lies_in_the_box(lines: list[Points]) -> None:
    parts = clip_lines(lines, shapely.box(*BOX))
    for index, line in enumerate(lines):
        kept = sum(path_length(part) for owner, part in parts if owner == index)
        assert kept == pytest.approx(_length_in_box(line), abs=1e-6)


@given(lines=st.lists(polylines(), max_size=4), size=lengths(30, 150))
def test_parts_of_bent_lines_are_what_shapely_keeps(lines: list[Points], size: float) -> None:
    region = shapely.Point(10, -20).buffer(size, quad_segs=4)
    parts = clip_lines(lines, region)
    assert [owner for owner, _ in parts] == sorted(owner for owner, _ in parts)
    for index, line in enumerate(lines):
        kept = [shapely.LineString(part) for owner, part in parts if owner == index]
        expected = shapely.intersection(shapely.LineString(line), region)
        assert shapely.union_all(kept).length == pytest.approx(
            shapely.union_all([expected]).length, abs=1e-6
        )
        assert all(region.buffer(1e-6).covers(part) for part in kept)


@given(angle_deg=angles(), spacing=lengths(5, 300), centre=points(100))
def test_a_family_has_every_line_that_meets_the_region_and_no_other(
    angle_deg: float, spacing: float, centre: tuple[float, float]
) -> None:
    region = shapely.box(*BOX)
    family = parallel_family(
        region, angle_deg=angle_deg, spacing_mm=spacing, centre=centre, start="centre"
    )
    along = np.array([np.cos(np.radians(angle_deg)), np.sin(np.radians(angle_deg))])
    across = np.array([-along[1], along[0]])
    expected, too_close_to_tell = 0, 0
    for number in range(-120, 121):
        middle = np.array(centre) + number * spacing * across
        line = shapely.LineString([middle - 2000 * along, middle + 2000 * along])
        away = region.distance(line)
        depth = shapely.intersection(region, line).length
        too_close_to_tell += 0 < away < 1e-4 or 0 < depth < 1e-2
        expected += away == 0
    assert abs(len(family.ends) - expected) <= too_close_to_tell
    lines = [shapely.LineString(ends) for ends in family.ends]
    assert all(region.distance(line) < 1e-5 for line in lines)


@given(angle_deg=angles(), spacing=lengths(5, 300))
def test_neighbours_of_a_family_lie_one_spacing_apart(angle_deg: float, spacing: float) -> None:
    family = parallel_family(
        shapely.box(*BOX), angle_deg=angle_deg, spacing_mm=spacing, centre=(0, 0), start="edge"
    )
    lines = [shapely.LineString(ends) for ends in family.ends]
    for before, after in pairwise(lines):
        # the outermost may be moved onto the region's edge by the tolerance of a point
        assert before.distance(after) == pytest.approx(spacing, abs=2e-6)
