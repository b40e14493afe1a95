"""Many polylines in two columns."""

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.geometry.points import Points, path_length
from stitchpath.preview.polylines import (
    Polylines,
    bounds_of,
    clipped_all,
    clipped_each,
    joined,
    simplified,
)

coordinates = st.integers(-1000, 1000).map(lambda tenths: tenths / 10)
parts = st.lists(
    st.lists(st.tuples(coordinates, coordinates), min_size=1, max_size=6).map(np.array),
    max_size=5,
)
CORNER = np.array([[0.0, 0.0], [1.0, 0.0], [2.0, 0.0], [2.0, 1.0], [2.0, 2.0]])


@given(parts)
def test_parts_come_back_in_order(drawn: list[Points]) -> None:
    lines = Polylines.of(drawn)
    assert len(lines) == len(drawn)
    assert all((a == b).all() for a, b in zip(lines, drawn, strict=True))
    assert lines.sizes.tolist() == [len(part) for part in drawn]
    assert lines.length == pytest.approx(sum(path_length(part) for part in drawn))


@given(parts, parts)
def test_joining_keeps_every_line(one: list[Points], other: list[Points]) -> None:
    lines = list(joined([Polylines.of(one), Polylines.of(other)]))
    assert all((a == b).all() for a, b in zip(lines, one + other, strict=True))


@given(parts, st.data())
def test_choosing_keeps_the_chosen(drawn: list[Points], data: st.DataObject) -> None:
    size = len(drawn)
    wanted = data.draw(st.lists(st.booleans(), min_size=size, max_size=size))
    kept = [part for part, keep in zip(drawn, wanted, strict=True) if keep]
    lines = list(Polylines.of(drawn).chosen(np.array(wanted, dtype=np.bool_)))
    assert all((a == b).all() for a, b in zip(lines, kept, strict=True))


def test_simplifying_keeps_ends_and_corners_and_leaves_out_single_points() -> None:
    lines = simplified(Polylines.of([CORNER, CORNER[:1], CORNER[::-1]]), tolerance_mm=0.01)
    assert [line.tolist() for line in lines] == [
        CORNER[[0, 2, 4]].tolist(),
        CORNER[[4, 2, 0]].tolist(),
    ]


def test_simplifying_keeps_a_stretch_that_goes_back_over_itself() -> None:
    back = np.array([[0.0, 0.0], [5.0, 0.0], [10.0, 0.0], [5.0, 0.0], [0.0, 0.0]])
    (line,) = simplified(Polylines.of([back]), tolerance_mm=0.1)
    assert path_length(line) == 20.0


def clipped(lines: Polylines, box: tuple[float, float, float, float]) -> Polylines:
    (own,) = clipped_all([lines], box)
    return own


def test_clipping_parts_a_line_that_leaves_and_comes_back() -> None:
    line = np.array([[-1.0, 1.0], [3.0, 1.0], [3.0, 2.0], [-1.0, 2.0]])
    kept = clipped(Polylines.of([line]), (0.0, 0.0, 2.0, 3.0))
    assert sorted(part[:, 1].mean() for part in kept) == [1.0, 2.0]
    assert kept.points.min() >= 0.0
    assert kept.points[:, 0].max() == 2.0


@given(parts)
def test_clipping_leaves_out_no_line_that_reaches_into_the_box(drawn: list[Points]) -> None:
    box = (-50.0, -20.0, 30.0, 40.0)
    kept = clipped(Polylines.of(drawn), box)
    # Source: the intersection as shapely has it, line by line.
    long = [shapely.LineString(part) for part in drawn if len(part) > 1]
    wanted = shapely.intersection(shapely.unary_union(long), shapely.box(*box))
    near = shapely.buffer(shapely.unary_union(_shapes(kept)), 1e-6)
    assert shapely.length(shapely.difference(wanted, near)) == pytest.approx(0, abs=1e-5)
    assert shapely.length(shapely.difference(near, shapely.box(-51, -21, 31, 41))) == 0


@given(parts, parts)
def test_clipping_several_sets_is_clipping_each(one: list[Points], other: list[Points]) -> None:
    box, sets = (-50.0, -20.0, 30.0, 40.0), [Polylines.of(one), Polylines.of(other)]
    for own, lines in zip(clipped_all(sets, box), sets, strict=True):
        alone = clipped(lines, box)
        assert own.points.tolist() == alone.points.tolist()
        assert own.starts.tolist() == alone.starts.tolist()


@given(parts)
def test_clipping_to_several_boxes_is_clipping_to_each(drawn: list[Points]) -> None:
    lines = Polylines.of(drawn)
    boxes = [(-50.0, -20.0, 30.0, 40.0), (90.0, 90.0, 99.0, 99.0), (25.0, 0.0, 100.0, 100.0)]
    for own, box in zip(clipped_each(lines, boxes), boxes, strict=True):
        alone = clipped(lines, box)
        assert own.points.tolist() == alone.points.tolist()
        assert own.starts.tolist() == alone.starts.tolist()


def test_bounds_are_those_of_all_parts_that_have_points() -> None:
    assert bounds_of(CORNER, np.empty((0, 2)), CORNER - 3) == (-3.0, -3.0, 2.0, 2.0)


def test_nothing_stays_nothing() -> None:
    nothing = Polylines.of([])
    assert nothing.length == 0.0
    assert not list(nothing)
    assert not len(simplified(nothing, tolerance_mm=1.0))
    assert not len(clipped(nothing, (0, 0, 1, 1)))
    assert not len(joined([]))


def test_placing_moves_every_point() -> None:
    moved = Polylines.of([CORNER]).placed(lambda points: points + 1)
    assert (moved.points == CORNER + 1).all()


def test_simplified_stays_within_the_tolerance_apart_or_not() -> None:
    angle = np.linspace(0, 20, 2000)
    spiral = Polylines.of([np.column_stack([angle * np.cos(angle), angle * np.sin(angle)])])
    line = shapely.LineString(spiral.points)
    for apart in (True, False):
        fewer = simplified(spiral, tolerance_mm=0.1, apart=apart)
        assert len(fewer.points) < len(spiral.points) / 10
        assert shapely.LineString(fewer.points).hausdorff_distance(line) <= 0.1


def _shapes(lines: Polylines) -> list[shapely.LineString]:
    return [shapely.LineString(part) for part in lines]
