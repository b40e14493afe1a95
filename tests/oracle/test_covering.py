"""Lines divided over covers, against shapely: nothing lost, nothing twice but the overlaps."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st

from stitchpath.geometry.points import Points, path_length
from stitchpath.hoopings.joins import find_joins
from stitchpath.hoopings.places import Cover, boxes_of
from stitchpath.hoopings.split import cut_line, divide_lines
from stitchpath.model.line import Line
from tests.strategies import covers, lengths, lines
from tests.support.covers import field_shapes


@st.composite
def splits(draw: st.DrawFn) -> tuple[Line, Cover, float]:
    """A line, fields that reach all of it, and the overlap."""
    overlap_mm = draw(st.just(6.0) | lengths(0, 15))
    line, cover = draw(lines()), draw(covers(overlap_mm=overlap_mm))
    most = boxes_of(cover)[:, 2:].max(axis=0) - 1e-3  # the cover lies round the origin
    scale = np.minimum(most / np.maximum(np.abs(line.points).max(axis=0), 1e-9), 1.0)
    points = line.points * scale
    assume(path_length(points) > 1)
    return replace(line, points=points), cover, overlap_mm


def _divided(line: Line, cover: Cover, overlap_mm: float) -> tuple[list[int], list[float]]:
    """Return the places that sew a line within a cover, and where it is joined."""
    chains = divide_lines((line,), cover, overlap_mm=overlap_mm)
    assert chains is not None, "a line within the fields is not reached"
    (found,) = find_joins((line,), chains, cover, overlap_mm=overlap_mm)
    return list(chains[0].places), [join.along for join in found]


def _parts(line: Line, joins: list[float], overlap_mm: float) -> list[Points]:
    return [part.points for part in cut_line(line, joins, overlap_mm=overlap_mm)]


@given(split=splits())
def test_parts_together_are_the_line(split: tuple[Line, Cover, float]) -> None:
    line, cover, overlap_mm = split
    _, joins = _divided(line, cover, overlap_mm)
    parts = _parts(line, joins, overlap_mm)
    shape = shapely.LineString(line.points)
    sewn = shapely.union_all(shapely.buffer([shapely.LineString(p) for p in parts], 1e-4))
    assert shapely.difference(shape, sewn).length <= 1e-6
    assert all(shape.buffer(1e-4).covers(shapely.LineString(points)) for points in parts)


@given(split=splits())
def test_nothing_is_sewn_twice_but_the_overlaps(split: tuple[Line, Cover, float]) -> None:
    line, cover, overlap_mm = split
    _, joins = _divided(line, cover, overlap_mm)
    once, half = path_length(line.points), overlap_mm / 2
    twice = sum(min(once, join + half) - max(0.0, join - half) for join in joins)
    total = sum(map(path_length, _parts(line, joins, overlap_mm)))
    assert total == pytest.approx(once + twice, abs=1e-4)


@given(split=splits())
def test_joins_follow_on_one_another_between_different_places(
    split: tuple[Line, Cover, float],
) -> None:
    line, cover, overlap_mm = split
    places, joins = _divided(line, cover, overlap_mm)
    assert len(places) == len(joins) + 1
    assert all(one != other for one, other in pairwise(places))
    assert all(one <= other for one, other in pairwise([0.0, *joins, path_length(line.points)]))


@given(split=splits())
def test_every_part_lies_in_the_field_that_sews_it(split: tuple[Line, Cover, float]) -> None:
    line, cover, overlap_mm = split
    places, joins = _divided(line, cover, overlap_mm)
    fields = field_shapes(cover)
    for place, points in zip(places, _parts(line, joins, overlap_mm), strict=True):
        assert fields[place].covers(shapely.LineString(points))
