"""Even grids: how many cells, where they lie, what a field placed on one reaches."""

import numpy as np
import pytest

from stitchpath.hoopings.grid import Grid, even_grid, reach_of


def _counts(
    width: float, height: float, *, overlap_mm: float = 6, turn_deg: float = 0
) -> tuple[int, int]:
    box = np.array([10.0, 20.0, 10 + width, 20 + height])
    reach = reach_of((200.0, 300.0), turn_deg=turn_deg)
    grid = even_grid(box, reach=reach, overlap_mm=overlap_mm, turn_deg=turn_deg)
    return grid.columns, grid.rows


def test_a_field_loses_the_room_that_rounding_needs() -> None:
    assert reach_of((200.0, 300.0), turn_deg=0.0) == pytest.approx((199.85, 299.85))


def test_a_turned_field_reaches_its_height_across() -> None:
    assert reach_of((200.0, 300.0), turn_deg=90.0) == pytest.approx((299.85, 199.85))


@pytest.mark.parametrize(
    ("extent", "columns"),
    [
        (0, 1),
        (199.85, 1),
        (199.86, 2),  # now a join needs its overlap: cells of 199.85 - 6 = 193.85 at the most
        (387.7, 2),  # 2 * 193.85
        (387.71, 3),
        (581.5, 3),
        (581.6, 4),
    ],
)
def test_columns_are_as_few_as_the_overlap_allows(extent: float, columns: int) -> None:
    assert _counts(extent, 100) == (columns, 1)


@pytest.mark.parametrize(("extent", "rows"), [(299.85, 1), (300, 2), (587.7, 2), (587.8, 3)])
def test_rows_follow_the_fields_height(extent: float, rows: int) -> None:
    assert _counts(100, extent) == (1, rows)


def test_without_an_overlap_a_join_still_has_room() -> None:
    """2 mm: 2 * 197.85 = 395.7."""
    assert _counts(395.7, 100, overlap_mm=0) == (2, 1)
    assert _counts(395.8, 100, overlap_mm=0) == (3, 1)


def test_a_turned_field_needs_other_counts() -> None:
    assert _counts(500, 290) == (3, 1)
    assert _counts(500, 290, turn_deg=90) == (2, 2)


def _grid() -> Grid:
    box = np.array([0.0, 0.0, 300.0, 200.0])
    return even_grid(box, reach=(110, 110), overlap_mm=6, turn_deg=0)


def test_cells_are_equal_and_numbered_row_by_row() -> None:
    grid = _grid()
    assert (grid.columns, grid.rows) == (3, 2)
    assert list(grid.pitch) == [100, 100]
    assert [grid.centre(cell) for cell in (0, 2, 3)] == [(50, 50), (250, 50), (50, 150)]
    assert grid.borders(0).tolist() == [100, 200]
    assert grid.borders(1).tolist() == [100]


def test_a_point_on_a_border_lies_in_the_cell_beyond_it() -> None:
    points = np.array([[99.0, 50.0], [100.0, 50.0], [100.0, 100.0], [300.0, 200.0]])
    assert _grid().cells_of(points).tolist() == [0, 1, 4, 5]


def test_a_point_outside_belongs_to_the_nearest_cell() -> None:
    assert _grid().cells_of(np.array([[-9.0, -9.0], [999.0, 50.0]])).tolist() == [0, 2]


def test_a_field_reaches_past_its_cell_by_half_the_rest() -> None:
    """Reach 110 on cells of 100: 5 mm to every side."""
    grid = _grid()
    assert grid.is_reached(np.array([[-5.0, 105.0], [105.0, 0.0]]), 0)
    assert not grid.is_reached(np.array([[50.0, 50.0], [105.1, 50.0]]), 0)


def test_more_cells_can_be_asked_for() -> None:
    box = np.array([0.0, 0.0, 300.0, 200.0])
    grid = even_grid(box, reach=(110, 110), overlap_mm=6, turn_deg=0, extra=(1, 2))
    assert (grid.columns, grid.rows) == (4, 4)
    assert grid.pitch == (75, 50)
