"""Lines split over a grid, against shapely: nothing lost, nothing twice but the overlaps."""

from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.geometry.points import Points, path_length
from stitchpath.hoopings.grid import Grid
from stitchpath.hoopings.split import cut_line, line_spans
from stitchpath.model.line import Line
from tests.strategies import grids, lengths, lines


@st.composite
def splits(draw: st.DrawFn) -> tuple[Line, Grid, float]:
    overlap_mm = draw(st.just(6.0) | lengths(0, 15))
    return draw(lines()), draw(grids(overlap_mm=overlap_mm)), overlap_mm


def _parts(line: Line, grid: Grid, overlap_mm: float) -> list[tuple[int, Points]]:
    spans = line_spans(line, grid, overlap_mm=overlap_mm)
    assert spans is not None
    parts = cut_line(line, spans, overlap_mm=overlap_mm)
    return [(span.cell, part.points) for span, part in zip(spans, parts, strict=True)]


@given(split=splits())
def test_parts_together_are_the_line(split: tuple[Line, Grid, float]) -> None:
    line, grid, overlap_mm = split
    parts = [points for _, points in _parts(line, grid, overlap_mm)]
    shape = shapely.LineString(line.points)
    sewn = shapely.union_all(shapely.buffer([shapely.LineString(p) for p in parts], 1e-4))
    assert shapely.difference(shape, sewn).length <= 1e-6
    assert all(shape.buffer(1e-4).covers(shapely.LineString(points)) for points in parts)


@given(split=splits())
def test_nothing_is_sewn_twice_but_the_overlaps(split: tuple[Line, Grid, float]) -> None:
    line, grid, overlap_mm = split
    spans = line_spans(line, grid, overlap_mm=overlap_mm)
    assert spans is not None
    once, half = path_length(line.points), overlap_mm / 2
    twice = sum(
        min(once, join + half) - max(0.0, join - half)
        for join in (span.end for span in spans[:-1])
    )
    total = sum(path_length(points) for _, points in _parts(line, grid, overlap_mm))
    assert total == pytest.approx(once + twice, abs=1e-4)
    assert twice <= overlap_mm * (len(spans) - 1) + 1e-9


@given(split=splits())
def test_spans_follow_on_one_another_without_a_gap(split: tuple[Line, Grid, float]) -> None:
    line, grid, overlap_mm = split
    spans = line_spans(line, grid, overlap_mm=overlap_mm)
    assert spans is not None
    assert spans[0].start == 0
    assert spans[-1].end == pytest.approx(path_length(line.points))
    for before, after in pairwise(spans):
        assert before.end == after.start
        assert before.cell != after.cell


@given(split=splits())
def test_every_part_is_reached_by_the_field_of_its_cell(
    split: tuple[Line, Grid, float],
) -> None:
    """Lines inside the grid; what lies outside belongs to a cell whose field is too far off."""
    line, grid, overlap_mm = split
    size = np.array([grid.columns * grid.pitch[0], grid.rows * grid.pitch[1]])
    scale = np.minimum(size / 2 / np.maximum(np.abs(line.points).max(axis=0), 1e-9), 1.0)
    inside = Line(points=line.points * scale, kind=line.kind, stitch_mm=line.stitch_mm)
    for cell, points in _parts(inside, grid, overlap_mm):
        centre = np.array(grid.centre(cell))
        field = shapely.box(
            *(centre - np.array(grid.reach) / 2), *(centre + np.array(grid.reach) / 2)
        )
        assert field.buffer(1e-4).covers(shapely.LineString(points))
