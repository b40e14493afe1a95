"""Motif: a drawing placed once, in rows, or round a border."""

from typing import Any

import numpy as np
import pytest
import shapely

from stitchpath.geometry.points import Points
from stitchpath.geometry.tolerance import FLATNESS_MM
from stitchpath.layouts._layout import Ground
from stitchpath.layouts.motif import LAYOUT, make, motif_step
from stitchpath.model.drawing import Drawing
from stitchpath.model.quilt import Quilting
from tests.support.straight_layouts import border_ground, rectangle_ground

HOOK = Drawing(
    source="hook.svg",
    strokes=(np.array([[10.0, 20], [50, 20], [50, 40]]), np.array([[10.0, 35], [20, 40]])),
)
"""40 wide, 20 high, its two strokes unlike in every direction."""


def spec(**keys: Any) -> Quilting:  # noqa: ANN401 - any key of a layout
    return Quilting(layout="motif", **{"svg": HOOK} | keys)


def middles(ground: Ground, layout: Quilting) -> Points:
    """Return the middle of each copy's box: of its long stroke, which spans the box."""
    strands = make(ground, layout)[::2]
    boxes = [(s.points.min(axis=0) + s.points.max(axis=0)) / 2 for s in strands]
    return np.array(boxes).reshape(-1, 2)


def test_no_drawing_gives_no_strands() -> None:
    assert make(rectangle_ground(400, 300), Quilting(layout="motif")) == ()


def test_single_motif_lies_in_the_middle_in_its_own_size() -> None:
    long, short = make(rectangle_ground(400, 300), spec())
    np.testing.assert_allclose(long.points, [[180, 140], [220, 140], [220, 160]])
    np.testing.assert_allclose(short.points, [[180, 155], [190, 160]])
    assert not long.anchor


def test_single_motif_is_scaled_turned_and_placed() -> None:
    long, _ = make(rectangle_ground(400, 300), spec(width=80, at=(100, 90), angle=90))
    # the box of 80 by 40 about (0, 0), then x, y become -y, x
    np.testing.assert_allclose(long.points, [[120, 50], [120, 130], [80, 130]], atol=1e-9)


def test_straight_rows_touch_and_run_through_the_centre() -> None:
    """Copies of 40 x 20 on 400 x 300 mm, one of them on the centre, counted by hand.

    11 columns, of which both outer ones reach in by half; 15 whole rows.
    """
    found = middles(rectangle_ground(400, 300), spec(repeat="straight"))
    assert sorted(set(found[:, 0])) == pytest.approx(np.arange(0, 401, 40))
    rows = np.arange(150 - 7 * 20, 150 + 7 * 20 + 1, 20)
    inner = found[(found[:, 1] > 0) & (found[:, 1] < 300)]
    assert sorted(set(inner[:, 1])) == pytest.approx(rows)


def test_gap_parts_the_copies() -> None:
    found = middles(rectangle_ground(400, 300), spec(repeat="straight", gap=10))
    assert np.diff(sorted(set(found[:, 0]))) == pytest.approx(50)
    assert np.diff(sorted(set(found[:, 1]))) == pytest.approx(30)
    assert motif_step(spec(gap=10)) == (50, 30)


def test_rows_from_the_edge_begin_with_a_whole_copy_in_the_corner() -> None:
    found = middles(rectangle_ground(400, 300), spec(repeat="straight", start="edge"))
    inside = found[(found > 0).all(axis=1)]
    assert inside.min(axis=0) == pytest.approx([20, 10])


def test_every_other_column_of_a_half_drop_is_half_a_step_lower() -> None:
    found = middles(rectangle_ground(400, 300), spec(repeat="half-drop", gap=4))
    column = np.rint((found[:, 0] - 200) / 44)
    row = (found[:, 1] - 150) / 24 - np.where(column % 2 == 1, 0.5, 0.0)
    np.testing.assert_allclose(row, np.rint(row), atol=1e-9)


def test_every_other_column_of_a_mirrored_pattern_is_turned_over() -> None:
    strands = make(rectangle_ground(400, 300), spec(repeat="mirrored"))[::2]
    for strand in strands:
        start, corner, _ = strand.points
        column = round((min(start[0], corner[0]) - 180) / 40)
        assert (start[0] < corner[0]) == (column % 2 == 0)


def test_rows_cover_a_region_of_any_form_and_leave_out_what_does_not_meet_it() -> None:
    middle = shapely.Point(200, 150)
    ring = shapely.Polygon(middle.buffer(140).exterior, [middle.buffer(90).exterior])
    ground = Ground(region=ring, frame=(0, 0, 400, 300))
    found = middles(ground, spec(repeat="straight", width=10))
    boxes = shapely.box(*(found - [5, 2.5]).T, *(found + np.array([5, 2.5])).T)
    assert shapely.intersects(ring, boxes).all()
    assert shapely.union_all(boxes).buffer(1e-6).covers(ring)


def test_turned_rows_cover_the_region_too() -> None:
    ground = rectangle_ground(400, 300)
    layout = spec(repeat="straight", width=10, angle=30)
    turn = np.radians(30)
    copies = [s.points for s in make(ground, layout)[::2]]
    along = np.array([copy[1] - copy[0] for copy in copies])
    np.testing.assert_allclose(
        along, np.tile([10 * np.cos(turn), 10 * np.sin(turn)], (len(along), 1))
    )
    corners = [
        shapely.Polygon([c[0], c[1], c[2], c[0] + c[2] - c[1]]).buffer(1e-6) for c in copies
    ]
    assert shapely.union_all(corners).covers(ground.region)


def test_rows_can_be_placed_by_a_copy() -> None:
    found = middles(rectangle_ground(400, 300), spec(repeat="straight", at=(33, 44)))
    assert np.hypot(*(found - [33, 44]).T).min() == pytest.approx(0)


def test_border_has_a_copy_across_each_corner_and_whole_ones_between() -> None:
    """Middles of a border of 20 on 220 x 140 mm are 200 and 120 apart: 5 and 3 copies of 40."""
    strands = make(border_ground(220, 140, 20), spec(repeat="border"))[::2]
    assert len(strands) == 16
    steps = [s.points[1] - s.points[0] for s in strands]
    turns = np.degrees(np.arctan2([y for _, y in steps], [x for x, _ in steps])) % 360
    sides = [(5, 0), (3, 90), (5, 180), (3, 270)]
    expected = [turn - 45 * (n == 0) for count, turn in sides for n in range(count)]
    np.testing.assert_allclose(turns, np.array(expected) % 360, atol=1e-9)
    top = [s.points.mean(axis=0)[0] for s in strands[1:5]]
    assert np.diff(top) == pytest.approx(40)


def test_border_is_even_where_no_whole_number_fits() -> None:
    strands = make(border_ground(300, 300, 20), spec(repeat="border", gap=5))[::2]
    top = [s.points[0, 0] for s in strands[1:6]]
    # 280 by 45 is 6.2: six steps of 46.67
    assert np.diff(top) == pytest.approx(280 / 6)


def test_motif_without_a_width_fills_its_border() -> None:
    ground = border_ground(600, 600, 60, margin=5)
    y = np.concatenate([s.points for s in make(ground, spec(repeat="border", margin=5))[2:4]])[
        :, 1
    ]
    assert (y.min(), y.max()) == pytest.approx((5, 55))


def test_motif_keeps_inside_the_line_along_the_edge() -> None:
    inner = shapely.Polygon(
        shapely.box(8, 8, 592, 592).exterior, [shapely.box(60, 60, 540, 540).exterior]
    )
    ground = Ground(region=inner, frame=(0, 0, 600, 600), border_mm=60)
    y = np.concatenate([s.points for s in make(ground, spec(repeat="border"))[2:4]])[:, 1]
    assert (y.min(), y.max()) == pytest.approx((8, 60))


def test_border_on_an_area_that_is_none_runs_along_its_edge() -> None:
    strands = make(rectangle_ground(400, 300), spec(repeat="border"))
    assert strands[2].points[:, 1].min() == pytest.approx(0)


def test_border_too_narrow_for_itself_has_no_copies() -> None:
    assert make(border_ground(30, 30, 14.9), spec(repeat="border", width=300)) != ()
    assert (
        make(Ground(region=shapely.box(0, 0, 9, 9), frame=(0, 0, 9, 9)), spec(repeat="border"))
        == ()
    )


@pytest.mark.parametrize(
    ("keys", "repeat"),
    [
        ({"repeat": "single"}, (0, 0)),
        ({"repeat": "border"}, (0, 0)),
        ({"repeat": "straight", "start": "edge"}, (40, 20)),
        ({"repeat": "straight"}, (20, 10)),  # twice that to the side
        ({"repeat": "half-drop", "gap": 2}, (21, 11)),
        ({"repeat": "straight", "angle": 90}, (10, 20)),
        ({"repeat": "straight", "angle": -180}, (20, 10)),
        ({"repeat": "straight", "angle": 30}, (0, 0)),
        ({"repeat": "straight", "svg": None}, (0, 0)),
    ],
)
def test_repeat_is_a_copy_and_its_gap(
    keys: dict[str, Any], repeat: tuple[float, float]
) -> None:
    assert LAYOUT.repeat is not None
    assert LAYOUT.repeat(spec(**keys)) == repeat


def test_line_without_height_is_repeated_at_least_a_millimetre_apart() -> None:
    flat = Drawing(source="flat.svg", strokes=(np.array([[0.0, 0], [50, 0]]),))
    layout = spec(svg=flat, repeat="straight")
    assert motif_step(layout) == (50, 1)
    assert len(make(rectangle_ground(100, 10), layout)) < 100
    assert make(border_ground(300, 300, 20), spec(svg=flat, repeat="border")) != ()


def test_fine_drawing_is_thinned_within_the_flatness() -> None:
    angle = np.linspace(0, 2 * np.pi, 20_001)
    ring = Drawing(
        source="ring.svg", strokes=(np.column_stack([np.cos(angle), np.sin(angle)]),)
    )
    (strand,) = make(rectangle_ground(400, 300), spec(svg=ring, width=60))
    middles_ = (strand.points[1:] + strand.points[:-1]) / 2
    assert np.abs(np.hypot(*(middles_ - [200, 150]).T) - 30).max() <= FLATNESS_MM / 2 + 1e-9
    assert len(strand.points) < 400


@pytest.mark.parametrize("side", [200.0, 240.0])
def test_fitted_copies_are_whole_from_side_to_side(side: float) -> None:
    """Five and six copies of 40 lie side by side, ten and twelve of 20 below one another."""
    found = middles(rectangle_ground(side, side), spec(repeat="straight", fit=True))
    inside = found[(found > 0).all(axis=1) & (found < side).all(axis=1)]
    assert sorted(set(inside[:, 0].round(6))) == pytest.approx(np.arange(20, side, 40))
    assert sorted(set(inside[:, 1].round(6))) == pytest.approx(np.arange(10, side, 20))
