"""Where lines are joined: on crossings within reach, else straight, staggered, no stubs.

The rule: joins hide on crossings and are staggered, common practice, no source.
"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.geometry.paths import points_at
from stitchpath.hoopings.joins import STUB_STITCHES, Found, find_joins
from stitchpath.hoopings.places import Cover
from stitchpath.hoopings.split import divide_lines
from stitchpath.model.line import Line
from tests.support.covers import grid_of
from tests.support.lines import line

OVERLAP_MM = 6.0
TWO = grid_of(reach=126, pitch=100, columns=2, rows=1)
"""Along x a join may lie between 90 and 110."""


def _joins(lines: list[Line], cover: Cover = TWO) -> list[list[Found]]:
    chains = divide_lines(tuple(lines), cover, overlap_mm=OVERLAP_MM)
    assert chains is not None
    return find_joins(tuple(lines), chains, cover, overlap_mm=OVERLAP_MM)


def _rounded(joins: list[list[Found]]) -> list[list[tuple[float, bool]]]:
    return [[(round(each.along, 6), each.is_on_crossing) for each in one] for one in joins]


def _level(y: float, start: float = 0) -> Line:
    return line([(start, y), (200, y)])


def test_a_join_lies_on_a_crossing_within_reach() -> None:
    joins = _joins([_level(50), line([(107, 20), (107, 80)])])
    assert _rounded(joins) == [[(107, True)], []]


def test_a_join_lies_where_a_line_ends_on_it() -> None:
    joins = _joins([_level(50), line([(92, 20), (92, 50)])])
    assert _rounded(joins)[0] == [(92, True)]


def test_a_crossing_out_of_reach_is_not_taken() -> None:
    ((join,), _) = _joins([_level(50), line([(111, 20), (111, 80)])])
    assert not join.is_on_crossing
    assert 90 <= join.along <= 110


def test_a_line_may_be_joined_where_it_crosses_itself() -> None:
    loop = line([(0, 50), (160, 50), (160, 20), (98, 20), (98, 90)])
    assert _rounded(_joins([loop]))[0][0] == (98, True)


def test_a_bend_is_no_crossing_of_a_line_with_itself() -> None:
    ((join,),) = _joins([line([(0, 50), (100, 50), (200, 60)])])
    assert not join.is_on_crossing


def test_neighbours_are_staggered() -> None:
    """A quarter and three quarters of the way from 90 to 110."""
    joins = _joins([_level(y) for y in (20, 40, 60, 80)])
    assert [join.along for (join,) in joins] == pytest.approx([95, 105, 95, 105])


def test_neighbours_are_staggered_also_where_one_runs_backwards() -> None:
    back = line([(200, 40), (0, 40)])
    (first,), (second,) = _joins([_level(20), back])
    assert first.along == pytest.approx(95)
    assert 200 - second.along == pytest.approx(105)


def test_neighbours_take_turns_between_crossings() -> None:
    across = [line([(x, 10), (x, 90)]) for x in (94, 106)]
    joins = _joins([*(_level(y) for y in (20, 40, 60)), *across])
    assert [join.along for (join,) in joins[:3]] == pytest.approx([94, 106, 94])


def test_without_a_crossing_a_join_keeps_away_from_corners() -> None:
    """The corner at 95 is as far as can be: the join goes to the other end of its reach."""
    bent = line([(0, 50), (95, 50), (200, 20)])
    ((join,),) = _joins([bent])
    assert join.along >= 105


def test_without_a_crossing_a_join_keeps_away_from_tight_curves() -> None:
    angle = np.linspace(-np.pi / 2, np.pi / 2, 30)
    bulge = np.column_stack([93 + 3 * np.sin(angle), 50 - 3 * np.cos(angle)])
    ((join,),) = _joins([line([(0, 50), *bulge.tolist(), (200, 50)])])
    (place,) = points_at(
        np.array([(0, 50), *bulge.tolist(), (200, 50)]), np.array([join.along])
    )
    assert place[0] >= 104


def test_no_part_is_a_stub_where_that_can_be() -> None:
    """The line begins at 96; two stitches of 2.5 mm are less than the overlap of 6 mm."""
    long_stub = max(OVERLAP_MM, STUB_STITCHES * 2.5)
    ((join,), _) = _joins([line([(96, 50), (225, 50)]), line([(101, 20), (101, 80)])], _three())
    assert join.along >= long_stub


def _three() -> Cover:
    return grid_of(reach=126, pitch=100, columns=3, rows=1)


@given(
    crossings=st.lists(st.integers(1, 199), max_size=12, unique=True),
    heights=st.lists(st.integers(5, 95), min_size=1, max_size=5, unique=True),
    start=st.sampled_from([0, 20, 55]),
)
def test_a_join_lies_on_a_crossing_wherever_one_is_within_reach(
    crossings: list[int], heights: list[int], start: int
) -> None:
    """Within reach: both fields reach half the overlap past it, and it leaves no stub."""
    levels = [_level(y, start) for y in heights]
    joins = _joins([*levels, *(line([(x, 0), (x, 100)]) for x in crossings)])
    stub_mm = max(OVERLAP_MM, STUB_STITCHES * 2.5)
    within = [x for x in crossings if max(90, start + stub_mm) <= x <= 110]
    for (join,), _ in zip(joins, levels, strict=False):
        assert join.is_on_crossing == bool(within)
        if within:
            assert min(abs(start + join.along - x) for x in within) <= 1e-6
