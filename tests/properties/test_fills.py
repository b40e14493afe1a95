"""Lines that fill an area keep what they promise, on any area."""

import numpy as np
import pytest
import shapely
from hypothesis import assume, event, given, settings
from hypothesis import strategies as st

from stitchpath.geometry.empty_circle import largest_empty_circle
from stitchpath.geometry.points import Points, segment_lengths
from stitchpath.geometry.tolerance import SAME_POINT_MM
from stitchpath.layouts import find_layout
from stitchpath.layouts._layout import Region
from stitchpath.model.quilt import Quilting
from tests.support.regions import farthest_mm, ground_of, regions, roomy_part

FILLS = ("meander", "pebbles")
WIDEST = 1.6
"""Of the spacing: no gap is wider."""
NARROW = 0.2
"""Of the spacing: parts of an area narrower than that may stay empty."""

SPACINGS = st.floats(5, 60)
SEEDS = st.integers(0, 999_999)


def filled(name: str, region: Region, spacing: float, seed: int) -> list[Points]:
    spec = Quilting(layout=name, spacing=spacing, seed=seed)
    return [strand.points for strand in find_layout(name).make(ground_of(region), spec)]


@settings(deadline=None)
@given(region=regions(), spacing=SPACINGS, seed=SEEDS)
def test_a_meander_never_meets_itself(region: Region, spacing: float, seed: int) -> None:
    lines = filled("meander", region, spacing, seed)
    event(f"lines: {min(len(lines), 3)}")
    drawn = shapely.MultiLineString(lines)
    assert drawn.is_simple
    assert all(line.is_ring for line in drawn.geoms)


@settings(deadline=None)
@given(region=regions(), spacing=SPACINGS, seed=SEEDS)
def test_no_place_is_farther_from_a_meander_than_its_gap_allows(
    region: Region, spacing: float, seed: int
) -> None:
    # the stricter meaning: the border does not count as held
    part = roomy_part(region, NARROW * spacing)
    assume(part is not None)
    assert part is not None
    event("more than a hundred cells" if part.area > 100 * spacing**2 else "few cells")
    lines = filled("meander", part, spacing, seed)
    assert farthest_mm(part, lines, step_mm=spacing / 8) <= WIDEST / 2 * spacing


@settings(deadline=None)
@given(region=regions(), spacing=SPACINGS, seed=SEEDS)
def test_no_circle_without_a_line_is_wider_than_a_meanders_gap(
    region: Region, spacing: float, seed: int
) -> None:
    # the wider meaning, on all of the region: circles lie inside it
    lines = filled("meander", region, spacing, seed)
    for part in shapely.get_parts(region):
        circle = largest_empty_circle(lines, part, tolerance_mm=spacing / 100)
        assert 2 * circle.radius <= WIDEST * spacing


@settings(deadline=None)
@given(region=regions(), spacing=SPACINGS, seed=SEEDS)
def test_a_part_wide_enough_gets_one_line(region: Region, spacing: float, seed: int) -> None:
    part = roomy_part(region, NARROW * spacing)
    assume(part is not None)
    assert part is not None
    assert len(filled("meander", part, spacing, seed)) == 1


@pytest.mark.parametrize("name", FILLS)
@settings(max_examples=settings().max_examples // 2, deadline=None)
@given(region=regions(), spacing=SPACINGS, seed=SEEDS)
def test_fills_stay_inside_and_close(
    name: str, region: Region, spacing: float, seed: int
) -> None:
    lines = filled(name, region, spacing, seed)
    for line in lines:
        assert region.buffer(SAME_POINT_MM).covers(shapely.LineString(line))
        assert (line[0] == line[-1]).all()
        assert segment_lengths(line).min() > SAME_POINT_MM / 4


@settings(max_examples=settings().max_examples // 4, deadline=None)
@given(region=regions(), seed=SEEDS)
def test_a_seed_gives_one_line_and_another_seed_another(region: Region, seed: int) -> None:
    spacing = 12.0
    assume(region.area > 30 * spacing**2)
    for name in FILLS:
        one, again, other = (filled(name, region, spacing, at) for at in (seed, seed, seed + 1))
        assert len(one) == len(again)
        assert all(np.array_equal(a, b) for a, b in zip(one, again, strict=True))
        assert not all(np.array_equal(a, b) for a, b in zip(one, other, strict=False))
