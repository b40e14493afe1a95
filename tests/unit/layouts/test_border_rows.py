"""Rows of waves round a border."""

import numpy as np
import pytest
import shapely

from stitchpath.geometry.points import path_length
from stitchpath.layouts import find_layout
from stitchpath.layouts._border import Track
from stitchpath.layouts._layout import Ground, Strand
from stitchpath.model.quilt import Quilting
from stitchpath.model.shape import Shape
from tests.support.curved_layouts import distance_apart, half_turned, mirrored
from tests.support.straight_layouts import border_ground, rectangle_ground

WAVES = ("cable", "loops", "serpentine")


def lay(name: str, ground: Ground, *, border: float, **keys: object) -> tuple[Strand, ...]:
    spec = Quilting(layout=name, area=Shape(border=border), **keys)  # type: ignore[arg-type]  # keys of many types
    return find_layout(name).make(ground, spec)


TRACK = Track(box=(10, 20, 310, 220), corner=40)


def test_track_touches_its_box_and_has_the_length_of_its_sides() -> None:
    points = TRACK.place(np.linspace(0, 4, 8001), np.zeros(8001))
    assert shapely.LineString(points).bounds == pytest.approx(TRACK.box)
    assert path_length(points) == pytest.approx(2 * sum(TRACK.sides), rel=1e-6)


def test_track_turns_smoothly_and_no_faster_than_its_corners_say() -> None:
    # a quarter turn at a rate of 1 - cos: at most twice the mean rate, pi / 2 by its length
    points = TRACK.place(np.linspace(0, 4, 8001), np.zeros(8001))
    steps = np.diff(points, axis=0)
    heading = np.unwrap(np.arctan2(steps[:, 1], steps[:, 0]))
    length = np.hypot(*steps.T)
    rate = 2 * np.diff(heading) / (length[1:] + length[:-1])
    assert heading[-1] - heading[0] == pytest.approx(2 * np.pi, abs=0.01)
    assert rate.max() == pytest.approx(np.pi / 40, rel=0.01)
    assert rate.min() > -1e-4
    # the rate of that rate is at most its own half-height times 2 pi by the length
    assert np.abs(np.diff(rate)).max() < 1.1 * (np.pi / 40) ** 2 * length.max()


@pytest.mark.parametrize("out", [9.0, -9.0])
def test_points_beside_a_track_are_as_far_from_it_as_asked(out: float) -> None:
    share = np.linspace(0, 4, 2001)
    track = TRACK.place(share, np.zeros(2001))
    beside = shapely.points(TRACK.place(share, np.full(2001, out)))
    away = shapely.distance(shapely.LineString(track), beside)
    np.testing.assert_allclose(away, 9, atol=0.01)
    assert (shapely.contains(shapely.Polygon(track), beside) == (out < 0)).all()


@pytest.mark.parametrize("name", WAVES)
def test_rows_are_closed_rings_inside_the_border(name: str) -> None:
    ground = border_ground(400, 520, 80)
    strands = lay(name, ground, border=80, spacing=50)
    assert strands
    for strand in strands:
        assert (strand.points[0] == strand.points[-1]).all()
        assert ground.region.covers(shapely.LineString(strand.points))
        assert not strand.anchor


@pytest.mark.parametrize("name", WAVES)
def test_all_corners_look_alike(name: str) -> None:
    ground = border_ground(400, 520, 80)
    drawing = shapely.MultiLineString(
        [strand.points for strand in lay(name, ground, border=80, spacing=40)]
    )
    assert distance_apart(drawing, half_turned(drawing, ground)) < 0.03
    if name != "serpentine":  # which is not its own mirror image
        assert distance_apart(drawing, mirrored(drawing, ground)) < 0.03


def test_each_side_of_a_cable_has_whole_periods() -> None:
    # corners of 1.5 pi 20 = 94.2 shorten a side by 0.169 of that, to 304: 5 periods of 56 are
    # nearest to it; two strands cross twice a period
    ground = border_ground(400, 400, 80)
    first, second = lay("cable", ground, border=80, spacing=60, amplitude=20, period=56)
    crossings = shapely.intersection(
        shapely.LineString(first.points), shapely.LineString(second.points)
    )
    assert shapely.get_num_geometries(crossings) == 4 * 2 * 5


def test_a_wide_border_takes_as_many_rows_as_fit() -> None:
    # rows 2 x 10 wide and 30 apart in 100: 20 + 2 x 30 = 80 fit, 20 + 3 x 30 = 110 do not
    ground = border_ground(600, 600, 100)
    rows = lay("serpentine", ground, border=100, spacing=30, amplitude=10, period=60)
    assert len(rows) == 3
    boxes = [shapely.LineString(row.points).bounds for row in rows]
    np.testing.assert_allclose([box[0] for box in boxes], [10, 40, 70], atol=0.05)


def test_rows_lie_in_the_middle_of_what_the_margin_leaves() -> None:
    ground = border_ground(400, 400, 80, margin=10)
    (row,) = lay("loops", ground, border=80, margin=10, spacing=60, amplitude=20, period=60)
    left = shapely.LineString(row.points).bounds[0]
    assert left == pytest.approx(40 - 20, abs=0.05)


def test_rows_go_round_though_a_keep_out_cuts_the_border() -> None:
    whole = border_ground(400, 400, 80)
    cut = whole.region.difference(shapely.box(150, 300, 250, 400))
    assert isinstance(cut, shapely.Polygon)
    ground = Ground(region=cut, frame=whole.frame, border_mm=80)
    keys = {"spacing": 60, "amplitude": 20, "period": 60}
    (row,) = lay("serpentine", ground, border=80, **keys)
    (same,) = lay("serpentine", whole, border=80, **keys)
    np.testing.assert_allclose(row.points, same.points)


@pytest.mark.parametrize("name", WAVES)
def test_rows_go_across_where_a_border_is_turned_or_has_no_room_to_turn(name: str) -> None:
    ground = border_ground(400, 520, 80)
    assert any(strand.anchor for strand in lay(name, ground, border=80, angle=30.0))
    whole = Ground(region=shapely.box(0, 0, 100, 100), frame=(0, 0, 100, 100), border_mm=500)
    assert any(strand.anchor for strand in lay(name, whole, border=500))


@pytest.mark.parametrize("name", WAVES)
def test_a_border_is_not_stretched_to_fit_as_its_rows_fit_themselves(name: str) -> None:
    repeat = find_layout(name).repeat
    assert repeat is not None
    assert repeat(Quilting(layout=name, area=Shape(border=80))) == (0, 0)
    assert repeat(Quilting(layout=name, area=Shape(border=80), angle=30.0)) != (0, 0)


@pytest.mark.parametrize("name", WAVES)
def test_other_areas_have_rows_across(name: str) -> None:
    strands = find_layout(name).make(rectangle_ground(300, 200), Quilting(layout=name))
    assert any(strand.anchor for strand in strands)
