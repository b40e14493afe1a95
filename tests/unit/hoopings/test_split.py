"""Lines split between cells: once, and within half the overlap of a join twice."""

import numpy as np

from stitchpath.geometry.points import Points
from stitchpath.hoopings.grid import Grid
from stitchpath.hoopings.split import cut_line, line_spans
from stitchpath.model.line import Line
from tests.support.lines import assert_same_line, line

OVERLAP_MM = 6.0
GRID = Grid(
    origin=(0.0, 0.0), pitch=(100.0, 100.0), columns=3, rows=2, reach=(106.0, 106.0), turn_deg=0
)


def _parts(
    given: Line, *, overlap_mm: float = OVERLAP_MM, grid: Grid = GRID
) -> list[tuple[int, Points]]:
    spans = line_spans(given, grid, overlap_mm=overlap_mm)
    assert spans is not None
    parts = cut_line(given, spans, overlap_mm=overlap_mm)
    return [(span.cell, part.points) for span, part in zip(spans, parts, strict=True)]


def test_a_line_within_a_cell_is_left_as_it_is() -> None:
    given = line([(10, 10), (90, 90)])
    spans = line_spans(given, GRID, overlap_mm=OVERLAP_MM)
    assert spans is not None
    (part,) = cut_line(given, spans, overlap_mm=OVERLAP_MM)
    assert part is given


def test_both_sides_of_a_join_sew_half_the_overlap_more() -> None:
    parts = _parts(line([(20, 50), (280, 50)]))
    assert [cell for cell, _ in parts] == [0, 1, 2]
    assert_same_line(parts[0][1], [(20, 50), (103, 50)])
    assert_same_line(parts[1][1], [(97, 50), (203, 50)])
    assert_same_line(parts[2][1], [(197, 50), (280, 50)])


def test_without_an_overlap_parts_meet_in_one_point() -> None:
    first, second = _parts(line([(20, 50), (180, 50)]), overlap_mm=0)
    assert_same_line(first[1], [(20, 50), (100, 50)])
    assert_same_line(second[1], [(100, 50), (180, 50)])


def test_the_overlap_is_measured_along_the_line() -> None:
    """A line at 45 degrees through the borders' crossing: 3 mm along it is 2.12 mm across."""
    parts = _parts(line([(50, 50), (150, 150)]))
    assert [cell for cell, _ in parts] == [0, 4]
    assert_same_line(parts[0][1][1], (100 + 3 / np.sqrt(2), 100 + 3 / np.sqrt(2)))


def test_parts_keep_the_direction_of_their_line() -> None:
    parts = _parts(line([(280, 50), (20, 50)]))
    assert [cell for cell, _ in parts] == [2, 1, 0]
    assert_same_line(parts[0][1], [(280, 50), (197, 50)])


def test_a_line_along_a_border_is_sewn_from_one_side() -> None:
    ((cell, points),) = _parts(line([(100, 10), (100, 90)]))
    assert cell == 1
    assert_same_line(points, [(100, 10), (100, 90)])


def test_a_line_that_touches_a_border_and_turns_back_is_not_cut() -> None:
    from_beyond = line([(150, 20), (100, 50), (150, 80)])
    assert [cell for cell, _ in _parts(from_beyond)] == [1]
    from_before = line([(50, 20), (100, 50), (50, 80)])
    assert [cell for cell, _ in _parts(from_before)] == [0]


def test_an_end_just_past_a_border_is_sewn_with_the_rest() -> None:
    """2 mm are less than the overlap, and the field reaches 3 mm past its cell."""
    ((cell, points),) = _parts(line([(20, 50), (102, 50)]))
    assert cell == 0
    assert_same_line(points, [(20, 50), (102, 50)])


def test_an_end_too_far_to_be_reached_is_a_part_of_its_own() -> None:
    parts = _parts(line([(20, 50), (104, 50)]))
    assert_same_line(parts[0][1], [(20, 50), (103, 50)])
    assert_same_line(parts[1][1], [(97, 50), (104, 50)])


def test_a_line_that_dips_into_a_neighbour_is_sewn_from_one_side() -> None:
    dip = line([(80, 20), (101, 30), (80, 40)])
    assert [cell for cell, _ in _parts(dip)] == [0]


def test_a_bent_line_keeps_its_vertices() -> None:
    parts = _parts(line([(20, 50), (150, 50), (150, 150)]))
    assert [cell for cell, _ in parts] == [0, 1, 4]
    assert_same_line(parts[1][1], [(97, 50), (150, 50), (150, 103)])


HOOK = np.array([(70.0, 102.0), (110, 102), (110, 92), (70, 102), (70, 202)])
"""A triangle across both borders, and a tail down into the cell below."""


def test_what_must_stay_whole_is_not_cut_at_a_border() -> None:
    parts = _parts(line(HOOK, whole=((0, 3),)), grid=_roomy())
    holders = [points for _, points in parts if len(points) >= 4]
    assert len(holders) == 1
    assert_same_line(holders[0][:4], HOOK[:4])


def test_a_whole_part_goes_to_the_cell_of_its_middle() -> None:
    """Its middle is at 90, 97 of cells of 100."""
    assert _parts(line(HOOK, whole=((0, 3),)), grid=_roomy())[0][0] == 0


def test_where_no_field_reaches_a_whole_part_the_grid_will_not_do() -> None:
    assert line_spans(line(HOOK, whole=((0, 3),)), GRID, overlap_mm=OVERLAP_MM) is None


def _roomy() -> Grid:
    """Return the same cells under a larger field."""
    return Grid(
        origin=(0, 0), pitch=(100, 100), columns=3, rows=2, reach=(130, 130), turn_deg=0
    )
