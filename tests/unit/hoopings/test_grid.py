"""Even grids: how many fields, where they lie, what they hold. Geometry."""

import numpy as np
import pytest

from stitchpath.hoopings.grid import even_grid, evenly, holds
from stitchpath.hoopings.needs import find_needs
from stitchpath.hoopings.places import Cover, Kind
from stitchpath.model.line import Line, LineKind
from tests.support.covers import kind, turnable
from tests.support.lines import line

ROOM_MM = 6.0


def _count(extent: float, *, reach: float = 200, room: float = ROOM_MM) -> int:
    return len(evenly(10, 10 + extent, reach=reach, room=room))


@pytest.mark.parametrize(
    ("extent", "count"),
    [
        (0, 1),
        (200, 1),
        (200.1, 2),
        (394, 2),  # 2 * 200 - 6
        (394.1, 3),
        (588, 3),  # 3 * 200 - 2 * 6
        (588.1, 4),
    ],
)
def test_fields_in_a_row_are_as_few_as_the_room_allows(extent: float, count: int) -> None:
    assert _count(extent) == count


@pytest.mark.parametrize("extent", [0, 150, 200, 300, 394, 500, 588])
def test_fields_in_a_row_reach_all_of_it_and_overlap_by_the_room(extent: float) -> None:
    centres = evenly(10, 10 + extent, reach=200, room=ROOM_MM)
    assert centres[0] - 100 <= 10 + 1e-9
    assert 10 + extent <= centres[-1] + 100 + 1e-9
    assert np.all(200 - np.diff(centres) >= ROOM_MM - 1e-9)


def test_what_fields_reach_too_much_is_shared_out() -> None:
    """Three of 200 on 480: cells of 160, and 20 more on each side of them."""
    assert evenly(0, 480, reach=200, room=ROOM_MM).tolist() == pytest.approx([80, 240, 400])


def test_more_fields_can_be_asked_for() -> None:
    assert len(evenly(0, 480, reach=200, room=ROOM_MM, extra=2)) == 5


def _grid(lines: list[Line], one: Kind, kinds: tuple[Kind, ...] = ()) -> Cover:
    needs = find_needs(tuple(lines), kinds or (one,), room_mm=ROOM_MM)
    return even_grid(needs, one, kinds or (one,), room_mm=ROOM_MM)


def test_a_grid_is_centred_on_the_lines() -> None:
    cover = _grid([line([(100, 50), (480, 300)])], kind(200, 300))
    assert [place.centre for place in cover] == [(195, 175), (385, 175)]


def test_places_that_nothing_needs_are_left_out() -> None:
    """Two sides of a box of 3 x 3 fields."""
    two_sides = [line([(0, 0), (0, 560)]), line([(0, 0), (560, 0)])]
    assert len(_grid(two_sides, kind(200, 200))) == 3 + 3 - 1


def _motif(left: float, top: float, width: float, height: float) -> Line:
    points = np.array([(left, top), (left + width, top + height)])
    number = int(left * 1000 + top)
    return Line(points=points, kind=LineKind.QUILTING, stitch_mm=2.5, motif=number)


def test_a_finer_grid_is_taken_where_the_coarsest_would_cut_a_motif() -> None:
    """Two fields of 200 overlap by 20 at 190, where the motif is 60 wide; three do hold it."""
    lines = [line([(0, 0), (380, 0)]), _motif(160, 20, 60, 60)]
    cover = _grid(lines, kind(200, 200))
    assert len(cover) == 3
    assert holds(cover, np.array([[160.0, 20, 220, 80]]))


def test_a_motif_that_no_grid_holds_gets_a_place_of_its_own() -> None:
    """Motifs nearly as large as the field, in no step that a grid has."""
    lines = [line([(0, 0), (700, 0)]), _motif(30, 10, 190, 190), _motif(345, 10, 190, 190)]
    kinds = turnable(200, 200)
    cover = _grid(lines, kinds[0], kinds)
    assert holds(cover, np.array([[30.0, 10, 220, 200], [345, 10, 535, 200]]))


def test_a_box_is_held_only_by_one_place_as_a_whole() -> None:
    cover = _grid([line([(0, 0), (380, 0)])], kind(200, 200))
    assert holds(cover, np.array([[0.0, 0, 150, 10]]))
    assert not holds(cover, np.array([[150.0, 0, 250, 10]]))
