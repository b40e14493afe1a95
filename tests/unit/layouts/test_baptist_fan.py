"""Baptist fan: nested arcs that lean on one another."""

from itertools import pairwise

import numpy as np
import pytest
import shapely

from stitchpath.geometry.points import Points
from stitchpath.layouts.baptist_fan import LAYOUT, make
from stitchpath.model.quilt import Quilting
from tests.support.curved_layouts import NEAR_MM, circle, distance_apart, drawn, widest_gap
from tests.support.straight_layouts import anchors, rectangle_ground

COUNTS = (1, 2, 3, 4, 5, 8)
GROUND = rectangle_ground(420, 300)


def spec_of(count: int, radius: float = 60.0) -> Quilting:
    return Quilting(layout="baptist-fan", spacing=radius / count, count=count, start="edge")


def pins(radius: float) -> list[tuple[float, float]]:
    """Return pins on and round the ground in the order of sewing: up, each row to the left."""
    across = np.arange(420 + 2 * radius, -3 * radius, -radius)
    down = np.arange(300 + 2 * radius, -3 * radius, -radius)
    return [(float(x), float(y)) for y in down for x in across]


def fans_cut_by_earlier_ones(count: int, radius: float) -> shapely.Geometry:
    """Return all fans as whole circles, less what lies on a fan that is there already."""
    arcs = []
    earlier: list[shapely.Polygon] = []
    for x, y in pins(radius):
        near = [disc for disc in earlier if disc.distance(shapely.Point(x, y)) < radius]
        taken = shapely.union_all(near)
        rings = [circle(x, y, radius * ring / count) for ring in range(1, count + 1)]
        arcs.append(shapely.MultiLineString(rings).difference(taken))
        earlier.append(shapely.Polygon(circle(x, y, radius)))
    return shapely.union_all(arcs).intersection(GROUND.region)


@pytest.mark.parametrize("count", COUNTS)
def test_arcs_are_what_earlier_fans_leave_of_circles(count: int) -> None:
    drawing = drawn(make(GROUND, spec_of(count)), GROUND)
    # discs of chords leave slivers beside the arcs that they are cut from: the tolerance is
    # where a chord of one meets an arc of another at a slant
    assert distance_apart(drawing, fans_cut_by_earlier_ones(count, 60)) < 10 * NEAR_MM


@pytest.mark.parametrize("count", COUNTS)
def test_every_point_lies_on_a_circle_round_a_pin(count: int) -> None:
    spacing = 60 / count
    places = np.array(pins(60))
    for strand in make(GROUND, spec_of(count)):
        away = np.hypot(*(strand.points[:, None] - places[None]).transpose(2, 0, 1))
        ring = np.round(away / spacing)
        off = np.where((ring >= 0) & (ring <= count), np.abs(away - ring * spacing), np.inf)
        assert off.min(axis=1).max() < 1e-6


def test_outermost_arc_is_a_third_of_a_circle_and_the_innermost_near_a_quarter() -> None:
    # "quarter-circle to a third": acos(t / 2) from the right, asin(t / 2) below the left
    (length,) = {round(arc_angle(fan, 60), 1) for fan in fans_of(spec_of(1))}
    assert length == pytest.approx(120, abs=0.5)
    inner = arc_angle(fans_of(spec_of(8))[0], 60 / 8)
    assert inner == pytest.approx(180 - np.degrees(np.arccos(1 / 16)) + 3.6, abs=0.6)


def fans_of(spec: Quilting) -> list[Points]:
    """Return the fans of a row that has its pins on the lower edge, moved to the pin 0, 0."""
    row = next(s.points for s in make(GROUND, spec) if abs(s.points[0, 1] - 300) < 1e-6)
    at_pin = np.flatnonzero(
        (np.abs(row[:, 1] - 300) < 1e-6) & (np.abs((row[:, 0] - 420) % 60) % 60 < 1e-6)
    )
    return [row[first : last + 1] - row[first] for first, last in pairwise(at_pin)]


def arc_angle(fan: Points, radius: float) -> float:
    """Return through what angle a fan's arc of a radius goes round its pin."""
    on_arc = fan[np.abs(np.hypot(*fan.T) - radius) < 1e-6]
    angle = np.unwrap(np.arctan2(on_arc[:, 1], on_arc[:, 0]))
    return float(np.degrees(np.ptp(angle)))


@pytest.mark.parametrize("count", COUNTS)
def test_each_row_is_one_strand_that_ends_each_fan_on_the_next_pin(count: int) -> None:
    strands = make(GROUND, spec_of(count))
    # rows with pins from 300 + 60 to 0 reach in: the one at -60 x 0.13 above too
    assert len(strands) == 7
    fans = fans_of(spec_of(count))
    assert len(fans) >= 7
    for fan in fans:
        np.testing.assert_allclose(fan[-1], (-60, 0), atol=1e-9)


@pytest.mark.parametrize("count", COUNTS)
def test_what_is_sewn_twice_lies_on_outermost_arcs_of_earlier_fans(count: int) -> None:
    spacing = 60 / count
    for fan in fans_of(spec_of(count)):
        steps = np.hypot(*np.diff(fan, axis=0).T)
        middles = (fan[1:] + fan[:-1]) / 2
        ring = np.hypot(*middles.T) / spacing
        between = np.abs(ring - np.round(ring)) * spacing > 0.05
        neighbours = np.array([(60, 0), (0, 60), (-60, 60)])
        away = np.abs(np.hypot(*(middles[between, None] - neighbours).transpose(2, 0, 1)) - 60)
        assert away.min(axis=1).max() < 0.02
        # all the way out from the pin is 60 degrees on the right, and 30 + 30 below; the sides
        # take turns, and their parts differ a little
        assert steps[between].sum() <= 1.03 * 2 * np.pi / 6 * 60


def test_rows_go_up_from_the_lower_right_corner_without_an_anchor() -> None:
    strands = make(GROUND, spec_of(3))
    starts = [strand.points[0] for strand in strands]
    assert [y for _, y in starts] == sorted((y for _, y in starts), reverse=True)
    assert all(strand.points[0, 0] > strand.points[-1, 0] for strand in strands)
    assert anchors(strands) == []
    drawing = drawn(strands, GROUND)
    assert drawing.distance(shapely.Point(420 - 60, 300)) < 0.01  # the first fan's two feet
    assert drawing.distance(shapely.Point(420, 300 - 60)) < 0.01


def test_a_pin_stands_on_the_centre_or_fitted_on_all_corners() -> None:
    centred = make(GROUND, Quilting(spacing=20, count=3))
    assert any((np.abs(s.points - (210, 150)).sum(axis=1) < 1e-6).any() for s in centred)
    fitted = make(rectangle_ground(420, 300), Quilting(spacing=20, count=3, fit=True))
    for corner in ((0, 0), (420, 0), (0, 300), (420, 300)):
        assert any((np.abs(s.points - corner).sum(axis=1) < 1e-6).any() for s in fitted)
    assert LAYOUT.repeat is not None
    assert LAYOUT.repeat(spec_of(4)) == (60, 60)


@pytest.mark.parametrize("count", [3, 5])
def test_widest_gap_is_about_the_spacing(count: int) -> None:
    gap = widest_gap(make(GROUND, spec_of(count)), GROUND, shapely.box(100, 100, 300, 250))
    assert 0.95 * 60 / count < gap < 1.25 * 60 / count
