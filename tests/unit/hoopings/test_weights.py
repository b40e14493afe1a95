"""Bounds by weights: what they say of small cases by hand, and never too much."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from stitchpath.geometry.boxes import Boxes
from stitchpath.hoopings import weights as weights_module
from stitchpath.hoopings.bound import spots_along
from stitchpath.hoopings.grid import even_grid
from stitchpath.hoopings.needs import Needs, find_needs
from stitchpath.hoopings.places import Kind
from stitchpath.hoopings.programme import find_sets, solve
from stitchpath.hoopings.weights import told_by, weigh, weighed_bound
from stitchpath.model.line import Line
from tests.strategies import polylines
from tests.support.covers import kind, turnable
from tests.support.lines import line

ROOM_MM = 6.0
MANY = 99
TRIANGLE = np.array([[0.0, 0, 10, 10], [60, 0, 70, 10], [30, 60, 40, 70]])


def _bound(boxes: Boxes, kinds: tuple[Kind, ...]) -> int:
    return told_by(weigh(boxes, kinds, wanted=MANY))


def _needs(lines: tuple[Line, ...], kinds: tuple[Kind, ...]) -> Needs:
    return find_needs(lines, kinds, room_mm=ROOM_MM)


def test_three_boxes_any_two_of_which_fit_a_field_weigh_a_half_each() -> None:
    """One and a half fields, so two; no two of the boxes need a field each."""
    weights = weigh(TRIANGLE, (kind(70, 20), *turnable(45, 75)), wanted=MANY)
    assert weights == pytest.approx(0.5)
    assert told_by(weights) == 2


def test_one_box_needs_one_field() -> None:
    assert _bound(TRIANGLE[:1], (kind(20, 20),)) == 1


def test_boxes_apart_need_a_field_each() -> None:
    low = np.array([[0.0, 0], [500, 0], [0, 500], [500, 500]])
    assert _bound(np.column_stack([low, low + 10]), turnable(100, 200)) == 4


def test_a_crowd_does_not_mislead() -> None:
    """Eight boxes in a row, two to a field, and a crowd in one place; counting says two."""
    crowd = [[x, 0.0, x + 1, 1] for x in np.arange(200.0, 210, 0.5)]
    row = [[x, 0.0, x + 1, 1] for x in np.arange(0.0, 400, 50)]
    assert np.ceil((len(crowd) + len(row)) / (len(crowd) + 2)) == 2
    assert _bound(np.array(crowd + row), (kind(60, 60),)) == 4


def test_the_best_set_of_spots_tells_whatever_their_order() -> None:
    kinds = turnable(100, 200)
    apart = np.array([[0.0, 0, 10, 10], [500, 0, 510, 10], [0, 500, 10, 510]])
    for sets in ([TRIANGLE, apart], [apart, TRIANGLE]):
        assert weighed_bound(sets, kinds, known=1, wanted=MANY) == 3


def test_no_more_is_told_than_is_wanted_and_no_less_than_is_known() -> None:
    kinds = (kind(70, 20), *turnable(45, 75))
    assert weighed_bound([TRIANGLE], kinds, known=1, wanted=1) == 1
    assert weighed_bound([TRIANGLE], kinds, known=1, wanted=2) == 2
    assert weighed_bound([TRIANGLE], kinds, known=5, wanted=MANY) == 5
    assert weighed_bound([], kinds, known=5, wanted=MANY) == 5


def test_a_game_ends_with_its_rounds(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without a round, equal weights are left: five spots that differ, three of them shared."""
    crowd = np.array([[x, 0.0, x + 1, 1] for x in (0.0, 1, 2, 100, 200)])
    assert weigh(crowd, (kind(10, 10),), wanted=MANY).sum() == pytest.approx(3, rel=0.05)
    monkeypatch.setattr(weights_module, "MOST_SUMS", 0)
    assert weigh(crowd, (kind(10, 10),), wanted=MANY) == pytest.approx(1 / 3)


@given(
    corners=st.lists(
        st.tuples(st.integers(0, 30), st.integers(0, 30)), min_size=1, max_size=10, unique=True
    )
)
@settings(max_examples=25)
def test_no_bound_is_above_the_fewest_that_a_programme_finds(
    corners: list[tuple[int, int]],
) -> None:
    low = 10.0 * np.array(corners)
    boxes = np.column_stack([low, low + 5])
    kinds = turnable(55, 105)
    sets = find_sets(boxes, kinds)
    assert sets is not None
    fewest = solve(boxes, sets)
    assert fewest.cover is not None
    assert 1 <= _bound(boxes, kinds) <= len(fewest.cover)


@given(points=st.lists(polylines(), min_size=1, max_size=3))
@settings(max_examples=25)
def test_no_bound_is_above_what_a_grid_takes(points: list) -> None:  # type: ignore[type-arg]
    lines = tuple(line(each) for each in points)
    one = kind(90, 90)
    needs = _needs(lines, (one,))
    spots = spots_along(lines, needs, 30.0)
    grid = even_grid(needs, one, (one,), room_mm=ROOM_MM)
    assert 1 <= _bound(spots, (one,)) <= len(grid)


def test_no_field_laid_by_chance_holds_more_than_one() -> None:
    """What fields hold is told by shapely."""
    lines = tuple(line([(0, y), (500, y + 260)]) for y in range(0, 300, 60))
    kinds = turnable(100, 160)
    spots = spots_along(lines, _needs(lines, kinds), 40.0)
    weights = weigh(spots, kinds, wanted=MANY)
    shapes = shapely.box(*spots.T)
    chance = np.random.default_rng(11)
    corners = np.repeat(chance.uniform(-50, 550, (400, 2)), 2, axis=0)
    sides = np.tile([[100, 160], [160, 100]], (400, 1))
    fields = shapely.box(*corners.T, *(corners + sides).T)
    held = shapely.covers(np.array(fields)[:, None], np.array(shapes)[None]) @ weights
    assert 0.5 < held.max() <= 1 + 1e-9
