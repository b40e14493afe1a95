"""Piano keys."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.geometry.points import path_length
from stitchpath.layouts._layout import Ground
from stitchpath.layouts.piano_keys import LAYOUT
from stitchpath.model.quilt import Quilting
from tests.support.straight_layouts import (
    anchors,
    as_set,
    border_ground,
    clipped,
    places,
    rectangle_ground,
)

BORDER = border_ground(600, 800, 100)


def test_a_border_has_whole_keys_between_its_corners_and_in_them() -> None:
    strands = LAYOUT.make(BORDER, Quilting(spacing=50))
    bars = strands[4:]
    top = sorted(bar.points[0, 0] for bar in bars if bar.points[0, 1] == 0)
    left = sorted(bar.points[0, 1] for bar in bars if bar.points[0, 0] == 0)
    assert top == pytest.approx(list(range(50, 600, 50)))
    assert left == pytest.approx(list(range(50, 800, 50)))
    assert len(bars) == 2 * 11 + 2 * 15


def test_keys_are_as_nearly_spacing_wide_as_whole_ones_can_be() -> None:
    bars = LAYOUT.make(BORDER, Quilting(spacing=42))[4:]
    top = sorted(bar.points[0, 0] for bar in bars if bar.points[0, 1] == 0)
    # 400 mm between the corners hold 10 keys of 40; a corner of 100 mm 2 of 50
    assert np.diff(top) == pytest.approx([50] + [40] * 10 + [50])


def test_bars_are_square_to_their_side_and_as_long_as_the_border_is_wide() -> None:
    for strand in LAYOUT.make(BORDER, Quilting(spacing=50))[4:]:
        across, down = np.abs(strand.points[1] - strand.points[0])
        assert min(across, down) == 0
        assert max(across, down) in (50, 100)


def test_corners_are_mitred_and_bars_of_both_sides_end_on_the_mitre_in_the_same_points() -> (
    None
):
    strands = LAYOUT.make(BORDER, Quilting(spacing=22))
    mitre = strands[0].points
    assert mitre.tolist() == [[0, 0], [100, 100]]
    ends = [strand.points[1] for strand in strands[4:]]
    on_mitre = sorted(float(x) for x, y in ends if x == y <= 100)
    # 5 corner keys of 20 mm: bars at 20, 40, 60, 80 and the inner corner, from both sides
    assert on_mitre == pytest.approx([20, 20, 40, 40, 60, 60, 80, 80, 100, 100])


def test_all_four_mitres_run_from_an_outer_to_an_inner_corner() -> None:
    mitres = [strand.points.tolist() for strand in LAYOUT.make(BORDER, Quilting())[:4]]
    assert mitres == [
        [[0, 0], [100, 100]],
        [[600, 0], [500, 100]],
        [[600, 800], [500, 700]],
        [[0, 800], [100, 700]],
    ]


def test_a_margin_moves_the_inner_corner_and_its_bars_with_it() -> None:
    ground = border_ground(600, 800, 100, margin=12)
    bars = LAYOUT.make(ground, Quilting(spacing=44))
    assert bars[0].points[1].tolist() == [88, 88]
    assert any(bar.points.tolist() == [[88, 0], [88, 88]] for bar in bars)


def test_a_border_looks_the_same_after_half_a_turn() -> None:
    lines = clipped(LAYOUT.make(BORDER, Quilting(spacing=37)), BORDER)
    assert as_set(lines) == as_set(lines, turned_about=BORDER.centre)


@given(st.floats(5, 500), st.floats(1, 2000), st.floats(50, 900), st.floats(50, 900))
def test_bars_of_a_border_never_cross_or_vanish(
    border: float, spacing: float, width: float, height: float
) -> None:
    ground = border_ground(width, height, border)
    strands = LAYOUT.make(ground, Quilting(spacing=max(spacing, border / 20)))
    ends = np.array([strand.points for strand in strands])
    assert (np.hypot(*(ends[:, 1] - ends[:, 0]).T) > 1e-6).all()
    ends[4:, 1] += (ends[4:, 0] - ends[4:, 1]) * 1e-3  # bars end on mitres: let them stop short
    lines = np.asarray(shapely.linestrings(ends))
    tree = shapely.STRtree(list(lines))
    one, other = tree.query(lines, predicate="intersects")
    with_a_bar = (one < other) & (other > 3)  # mitres may meet in the middle
    assert not with_a_bar.any()
    assert shapely.box(0, 0, width, height).buffer(1e-9).covers(shapely.union_all(lines))


def test_an_island_kept_clear_in_the_border_leaves_the_corners_where_they_are() -> None:
    island = shapely.box(250, 20, 350, 60)
    region = BORDER.region.difference(island)
    assert isinstance(region, shapely.Polygon)
    ground = Ground(region=region, frame=BORDER.frame, border_mm=BORDER.border_mm)
    strands = LAYOUT.make(ground, Quilting(spacing=50))
    assert strands[0].points.tolist() == [[0, 0], [100, 100]]
    lengths = [path_length(bar) for bar in clipped(strands, ground)]
    # bars at 250, 300 and 350: on its edge, across it and on its other edge
    assert sum(lengths) == pytest.approx(
        sum(path_length(strand.points) for strand in strands) - 40
    )


def test_a_strip_has_bars_across_it_between_whole_keys() -> None:
    ground = rectangle_ground(500, 80)
    strands = LAYOUT.make(ground, Quilting(spacing=48))
    assert places(strands, 90).tolist() == [50, 100, 150, 200, 250, 300, 350, 400, 450]
    (anchor,) = anchors(strands)
    assert anchor[0, 0] == 250


def test_a_tall_strip_has_bars_across_its_width() -> None:
    strands = LAYOUT.make(rectangle_ground(80, 500), Quilting(spacing=100))
    assert places(strands, 0).tolist() == [100, 200, 300, 400]


def test_a_slanting_strip_has_bars_square_to_its_long_side() -> None:
    # sides of 500 and 100 mm, the long one 4 across to 3 down
    corners = np.array([[100, 0], [500, 300], [440, 380], [40, 80]])
    region = shapely.Polygon(corners)
    ground = Ground(region=region, frame=(40, 0, 500, 380))
    strands = LAYOUT.make(ground, Quilting(spacing=50))
    bars = clipped(strands, ground)
    assert len(bars) == 9
    for bar in bars:
        assert (bar[1] - bar[0]) @ (4, 3) == pytest.approx(0, abs=1e-9)
        assert np.hypot(*(bar[1] - bar[0])) == pytest.approx(100)


def test_keys_wider_than_a_strip_leave_no_bar() -> None:
    assert LAYOUT.make(rectangle_ground(60, 20), Quilting(spacing=500)) == ()


def test_keys_wider_than_a_border_leave_its_mitres_and_the_bars_at_its_corners() -> None:
    assert len(LAYOUT.make(BORDER, Quilting(spacing=2000))) == 4 + 8


def test_a_border_without_a_hole_is_a_mitred_square() -> None:
    ground = border_ground(200, 200, 100)
    strands = LAYOUT.make(ground, Quilting(spacing=50))
    # three bars a side between four keys; both inner corners are one point
    assert len(strands) == 4 + 4 * 3
    assert [strand.points[1].tolist() for strand in strands[:4]] == [[100, 100]] * 4


def test_it_always_fills_its_area() -> None:
    assert LAYOUT.repeat is not None
    assert LAYOUT.repeat(Quilting()) == (0, 0)
