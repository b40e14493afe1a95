"""Rows and columns of fields: shifted to their lines, of mixed kinds. Counts by hand."""

import numpy as np

from stitchpath.hoopings.grid import holds
from stitchpath.hoopings.needs import find_needs
from stitchpath.hoopings.places import Cover, Kind
from stitchpath.hoopings.rows import row_cover
from stitchpath.hoopings.split import divide_lines
from stitchpath.model.line import Line, LineKind
from tests.support.covers import kind, turnable
from tests.support.lines import line

ROOM_MM = 6.0


def _rows(lines: list[Line], kinds: tuple[Kind, ...], *, down: bool = True) -> Cover:
    needs = find_needs(tuple(lines), kinds, room_mm=ROOM_MM)
    cover = row_cover(needs, kinds, room_mm=ROOM_MM, most=50, down=down)
    assert cover is not None
    assert divide_lines(tuple(lines), cover, overlap_mm=ROOM_MM) is not None
    return cover


def _lattice(width: float, height: float, step: int) -> list[Line]:
    across = [line([(0, y), (width, y)]) for y in np.arange(0, height + 1, step)]
    return across + [line([(x, 0), (x, height)]) for x in np.arange(0, width + 1, step)]


def test_each_row_begins_where_its_lines_do() -> None:
    lines = [line([(0, 0), (90, 0)]), line([(300, 200), (390, 200)])]
    cover = _rows(lines, (kind(100, 100),))
    assert [place.centre[0] for place in cover] == [45, 345]


def test_gaps_in_a_row_are_left_out() -> None:
    lines = [line([(0, 0), (90, 0)]), line([(500, 0), (590, 0)])]
    assert len(_rows(lines, (kind(100, 100),))) == 2


def test_rows_are_spread_over_their_slack() -> None:
    """Two rows of 200 on 300: they overlap by more than the room, and reach past the ends."""
    cover = _rows(_lattice(180, 300, 60), (kind(200, 200),))
    heights = sorted(place.centre[1] for place in cover)
    assert len(heights) == 2
    assert heights[1] - heights[0] < 200 - ROOM_MM


def test_upright_and_turned_rows_are_mixed_where_that_needs_fewer() -> None:
    """582 x 490 in 200 x 300: 2 upright rows of 3, or 3 turned rows of 2, or one of each."""
    lines = _lattice(582, 490, 97)
    assert len(_rows(lines, turnable(200, 300)[:1])) == 6
    assert len(_rows(lines, turnable(200, 300)[1:])) == 6
    assert len(_rows(lines, turnable(200, 300))) == 5


def test_columns_are_rows_the_other_way() -> None:
    lines = _lattice(490, 582, 97)
    assert len(_rows(lines, turnable(200, 300), down=False)) == 5


def test_a_whole_part_is_in_one_field_of_a_row() -> None:
    whole = Line(
        points=np.array([(170.0, 80.0), (240.0, 150.0)]),
        kind=LineKind.QUILTING,
        stitch_mm=2.5,
        motif=1,
    )
    cover = _rows([line([(0, 100), (380, 100)]), whole], (kind(200, 200),))
    assert holds(cover, np.array([[170.0, 80, 240, 150]]))


def test_fields_beside_a_whole_part_still_overlap() -> None:
    """The part begins at 180, and the second field ends where the line does, not beyond it."""
    whole = Line(
        points=np.array([(180.0, 80.0), (340.0, 150.0)]),
        kind=LineKind.QUILTING,
        stitch_mm=2.5,
        motif=1,
    )
    cover = _rows([line([(0, 100), (370, 100)]), whole], (kind(200, 200),))
    assert [place.box[0] for place in cover] == [0, 170]


def test_more_places_than_are_of_use_are_not_laid() -> None:
    lines = _lattice(500, 500, 100)
    needs = find_needs(tuple(lines), (kind(100, 100),), room_mm=ROOM_MM)
    assert row_cover(needs, (kind(100, 100),), room_mm=ROOM_MM, most=20, down=True) is None


def test_a_kind_that_holds_no_whole_part_makes_no_rows() -> None:
    tall = Line(
        points=np.array([(0.0, 0.0), (10.0, 150.0)]),
        kind=LineKind.QUILTING,
        stitch_mm=2.5,
        motif=1,
    )
    kinds = turnable(100, 160)
    needs = find_needs((tall,), kinds, room_mm=ROOM_MM)
    assert row_cover(needs, kinds[1:], room_mm=ROOM_MM, most=9, down=True) is None
    assert len(_rows([tall], kinds)) == 1
