"""Covers in two blocks: fewer than rows on some dense stages, and nothing left out."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchpath.hoopings.blocks import block_cover
from stitchpath.hoopings.cover import find_cover
from stitchpath.hoopings.grid import holds
from stitchpath.hoopings.needs import Needs, find_needs
from stitchpath.hoopings.places import Kind
from stitchpath.hoopings.rows import row_cover
from stitchpath.hoopings.split import divide_lines
from stitchpath.model.line import Line
from tests.strategies import polylines
from tests.support.covers import field_shapes, turnable
from tests.support.lines import line

ROOM_MM = 6.0
MOST = 99


def _lattice(width: float, height: float, count: int = 30) -> tuple[Line, ...]:
    across = [line([(0, y), (width, y)]) for y in np.linspace(0, height, count)]
    down = [line([(x, 0), (x, height)]) for x in np.linspace(0, width, count)]
    return (*across, *down)


def _needs(lines: tuple[Line, ...], kinds: tuple[Kind, ...]) -> Needs:
    return find_needs(lines, kinds, room_mm=ROOM_MM)


def _in_rows(needs: Needs, kinds: tuple[Kind, ...]) -> int:
    found = [
        row_cover(needs, kinds, room_mm=ROOM_MM, most=MOST, down=down) for down in (True, False)
    ]
    return min(len(cover) for cover in found if cover)


@pytest.mark.parametrize(
    ("reach", "size", "rows", "blocks"),
    [
        ((250, 400), (1428, 1066), 18, 17),
        ((250, 400), (1041, 1782), 23, 22),
        ((130, 180), (797, 803), 32, 31),
    ],
)
def test_blocks_take_one_fewer_where_rows_leave_a_strip(
    reach: tuple[float, float], size: tuple[float, float], rows: int, blocks: int
) -> None:
    """By hand for the first; the others are found, not worked by hand.

    Beyond the first, each field adds 244 x 394, or 394 x 244 turned; 1422 x 1060 are left.
    Rows: 6 upright and three times 4 turned, 394 + 3 x 244 = 1126 high. Columns: 3 of 5 turned
    and one of 3 upright, 3 x 394 + 244 = 1426 wide. Both are 18. In two blocks: one column of 3
    upright, and beside it, 1178 wide, rows of 3, 3, 5 and 3, again 1126 high: 17.
    """
    lines, kinds = _lattice(*size), turnable(*reach)
    needs = _needs(lines, kinds)
    assert _in_rows(needs, kinds) == rows
    cover = block_cover(needs, kinds, most=rows - 1)
    assert cover is not None
    assert len(cover) == blocks
    assert divide_lines(lines, cover, overlap_mm=ROOM_MM) is not None
    found = find_cover(lines, kinds, room_mm=ROOM_MM, overlap_mm=ROOM_MM)
    assert found is not None
    assert found.bound <= len(found.cover) <= blocks


def test_there_are_no_blocks_where_none_are_few_enough() -> None:
    lines, kinds = _lattice(600, 600), turnable(200, 300)
    assert block_cover(_needs(lines, kinds), kinds, most=2) is None


def test_a_stage_of_one_field_has_no_blocks() -> None:
    lines, kinds = _lattice(100, 100, 5), turnable(200, 300)
    assert block_cover(_needs(lines, kinds), kinds, most=MOST) is None


def test_what_must_stay_whole_lies_in_one_field_of_a_block() -> None:
    whole = line([(180, 100), (260, 100)], whole=((0, 1),))
    lines, kinds = (*_lattice(700, 700), whole), turnable(200, 300)
    needs = _needs(lines, kinds)
    cover = block_cover(needs, kinds, most=MOST)
    assert cover is not None
    assert holds(cover, needs.wholes)


@given(points=st.lists(polylines(), min_size=1, max_size=4))
@settings(max_examples=25)
def test_two_blocks_reach_every_line(points: list) -> None:  # type: ignore[type-arg]
    """Told by shapely: no bit of a line lies outside the fields."""
    lines, kinds = tuple(line(each) for each in points), turnable(60, 90)
    cover = block_cover(_needs(lines, kinds), kinds, most=MOST)
    if cover is not None:
        left = shapely.MultiLineString([each.points for each in lines])
        assert shapely.difference(left, shapely.union_all(field_shapes(cover))).length <= 1e-3
