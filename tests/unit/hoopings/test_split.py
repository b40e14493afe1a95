"""Lines divided over places: by few joins, what is whole not parted, the overlap sewn twice."""

import numpy as np
import pytest

from stitchpath.geometry.points import Points
from stitchpath.hoopings.places import Cover, Place
from stitchpath.hoopings.split import Chain, cut_line, divide_lines
from stitchpath.model.line import Line
from tests.support.covers import grid_of, kind
from tests.support.lines import assert_same_line, line

OVERLAP_MM = 6.0
COVER = grid_of(reach=126, pitch=100, columns=3, rows=2)
"""Cells of 100 mm; fields reach 13 mm past them, so a join may lie 10 mm either side."""


def _chain(given: Line, cover: Cover = COVER, *, overlap_mm: float = OVERLAP_MM) -> Chain:
    chains = divide_lines((given,), cover, overlap_mm=overlap_mm)
    assert chains is not None
    return chains[0]


def _parts(given: Line, joins: list[float], *, overlap_mm: float = OVERLAP_MM) -> list[Points]:
    return [part.points for part in cut_line(given, joins, overlap_mm=overlap_mm)]


def test_a_line_within_a_field_goes_to_the_nearest_centre() -> None:
    assert _chain(line([(10, 10), (90, 90)])) == Chain(places=(0,))
    assert _chain(line([(95, 50), (110, 50)])) == Chain(places=(1,))


def test_a_join_may_lie_where_both_fields_reach_half_the_overlap_past_it() -> None:
    """The left field ends at 113 mm, the next begins at 87; the line begins at 20."""
    chain = _chain(line([(20, 50), (280, 50)]))
    assert chain.places == (0, 1, 2)
    reach = np.array([(window.low, window.high) for window in chain.windows])
    assert reach == pytest.approx(np.array([(70, 90), (170, 190)]))


def test_a_line_the_other_way_goes_through_the_places_backwards() -> None:
    assert _chain(line([(280, 50), (20, 50)])).places == (2, 1, 0)


def test_a_line_takes_no_more_places_than_it_must() -> None:
    """It ends 10 mm into the third cell, where the second field still reaches."""
    assert _chain(line([(20, 50), (210, 50)])).places == (0, 1)


def test_a_line_that_dips_into_a_neighbour_is_sewn_from_one_side() -> None:
    assert _chain(line([(20, 20), (112, 30), (20, 40)])) == Chain(places=(0,))


def test_lines_of_one_row_stay_in_it_where_two_rows_reach_them() -> None:
    for y, places in ((95, (0, 1, 2)), (105, (3, 4, 5))):
        assert _chain(line([(20, y), (280, y)])).places == places


def test_a_line_out_of_reach_has_no_chain() -> None:
    assert divide_lines((line([(20, 50), (330, 50)]),), COVER, overlap_mm=OVERLAP_MM) is None
    assert divide_lines((line([(20, 500), (30, 500)]),), COVER, overlap_mm=OVERLAP_MM) is None


def test_fields_that_overlap_by_too_little_have_no_chain() -> None:
    one = kind(100, 100)
    cover = (Place(kind=one, centre=(50, 50)), Place(kind=one, centre=(145, 50)))
    given = line([(10, 50), (190, 50)])
    assert divide_lines((given,), cover, overlap_mm=5) is not None
    assert divide_lines((given,), cover, overlap_mm=5.1) is None


HOOK = np.array([(70.0, 102.0), (110, 102), (110, 92), (70, 102), (70, 250)])
"""A triangle across two borders, and a tail down into the cell below."""


def test_no_join_lies_in_what_must_stay_whole() -> None:
    """The middle row holds the triangle; the line goes on past what it reaches."""
    roomy = grid_of(reach=130, pitch=100, columns=2, rows=3)
    whole = _chain(line(HOOK, whole=((0, 3),)), roomy)
    along = float(np.hypot(*np.diff(HOOK[:4], axis=0).T).sum())
    assert all(along <= low for window in whole.windows for low, _ in window.ranges)


def test_a_whole_part_in_the_middle_leaves_a_window_on_both_sides() -> None:
    given = line([(20, 50), (95, 50), (98, 50), (180, 50)], whole=((1, 2),))
    (window,) = _chain(given).windows
    assert np.array(window.ranges) == pytest.approx(np.array([(70, 75), (78, 90)]))


def test_where_no_field_holds_a_whole_part_there_is_no_chain() -> None:
    given = line([(20, 50), (180, 50)], whole=((0, 1),))
    assert divide_lines((given,), COVER, overlap_mm=OVERLAP_MM) is None


def test_a_motif_goes_to_one_place_with_all_its_lines() -> None:
    strokes = [line([(70, 40), (80, 40)]), line([(100, 40), (105, 40)])]
    apart = divide_lines(tuple(strokes), COVER, overlap_mm=OVERLAP_MM)
    motif = tuple(
        Line(points=each.points, kind=each.kind, stitch_mm=2.5, motif=7) for each in strokes
    )
    together = divide_lines(motif, COVER, overlap_mm=OVERLAP_MM)
    assert apart == [Chain(places=(0,)), Chain(places=(1,))]
    assert together == [Chain(places=(0,)), Chain(places=(0,))]


def test_both_sides_of_a_join_sew_half_the_overlap_more() -> None:
    first, second, third = _parts(line([(20, 50), (280, 50)]), [80, 180])
    assert_same_line(first, [(20, 50), (103, 50)])
    assert_same_line(second, [(97, 50), (203, 50)])
    assert_same_line(third, [(197, 50), (280, 50)])


def test_without_an_overlap_parts_meet_in_one_point() -> None:
    first, second = _parts(line([(20, 50), (180, 50)]), [80], overlap_mm=0)
    assert_same_line(first, [(20, 50), (100, 50)])
    assert_same_line(second, [(100, 50), (180, 50)])


def test_the_overlap_is_measured_along_the_line() -> None:
    """At 45 degrees 3 mm along it are 2.12 mm across."""
    first, _ = _parts(line([(50, 50), (150, 150)]), [50 * np.sqrt(2)])
    assert_same_line(first[1], (100 + 3 / np.sqrt(2), 100 + 3 / np.sqrt(2)))


def test_a_line_without_joins_is_left_as_it_is() -> None:
    given = line([(10, 10), (90, 90)])
    assert cut_line(given, [], overlap_mm=OVERLAP_MM)[0] is given


def test_a_bent_line_keeps_its_vertices() -> None:
    _, middle, _ = _parts(line([(20, 50), (150, 50), (150, 150)]), [80, 180])
    assert_same_line(middle, [(97, 50), (150, 50), (150, 103)])
