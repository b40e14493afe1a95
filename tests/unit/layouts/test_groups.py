"""Lines in groups."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.layouts._groups import grouped_strands
from stitchpath.model.quilt import Quilting
from tests.support.straight_layouts import places, rectangle_ground

GROUND = rectangle_ground(300, 200)


def test_a_group_of_three_straddles_the_centre() -> None:
    strands = grouped_strands(GROUND, Quilting(gap=10), angle_deg=90, spacing_mm=100, count=3)
    assert places(strands, 90).tolist() == [40, 50, 60, 140, 150, 160, 240, 250, 260]


def test_a_group_begins_at_the_upper_left_corner() -> None:
    spec = Quilting(gap=10, start="edge")
    strands = grouped_strands(GROUND, spec, angle_deg=90, spacing_mm=100, count=2)
    assert places(strands, 90).tolist() == [0, 10, 100, 110, 200, 210, 300]


def test_a_gap_too_wide_for_its_spacing_makes_even_lines() -> None:
    strands = grouped_strands(GROUND, Quilting(gap=80), angle_deg=0, spacing_mm=60, count=3)
    assert np.diff(places(strands, 0)) == pytest.approx(20)


def test_a_spacing_without_room_for_a_group_makes_a_smaller_one() -> None:
    strands = grouped_strands(GROUND, Quilting(), angle_deg=0, spacing_mm=2.5, count=500)
    assert np.diff(places(strands, 0)).min() == pytest.approx(1)


@given(
    st.floats(1, 500),
    st.integers(1, 6),
    st.none() | st.floats(1, 500),
    st.sampled_from(["centre", "edge"]),
    st.floats(0, 180),
)
def test_lines_never_coincide_and_one_group_follows_another(
    spacing: float, count: int, gap: float | None, start: str, angle: float
) -> None:
    spec = Quilting(gap=gap, start="centre" if start == "centre" else "edge")
    strands = grouped_strands(GROUND, spec, angle_deg=angle, spacing_mm=spacing, count=count)
    at = places(strands, angle)
    assert len(at) == len(strands)
    assert (np.diff(at) > 0.99).all()
    lines = min(count, int(spacing))
    assert np.allclose(at[lines:] - at[:-lines], spacing)
