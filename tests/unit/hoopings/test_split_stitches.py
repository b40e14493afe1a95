"""Stitches that are there already, divided over hoopings: none moves, none is lost."""

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from stitchpath.geometry.points import Points
from stitchpath.hoopings.split_stitches import (
    MARGIN_MM,
    OVERLAP_MM,
    lay_on_piece,
    split_stitches,
)
from stitchpath.model.hooping import Hooping
from stitchpath.model.stitches import Op, Stitches
from tests.support.stitch_sets import make_stitches


def _run(points: Points) -> tuple[list[list[float]], list[int]]:
    return [points[0].tolist(), *points.tolist()], [int(Op.JUMP)] + [int(Op.STITCH)] * len(
        points
    )


def _stitches(*runs: Points) -> Stitches:
    xy: list[list[float]] = []
    op: list[int] = []
    for number, run in enumerate(runs):
        if number:
            xy.append(xy[-1])
            op.append(Op.CUT)
        places, kinds = _run(run)
        xy += places
        op += kinds
    return make_stitches(xy, op)


def _line(start: tuple[float, float], end: tuple[float, float], count: int) -> Points:
    return np.round(np.linspace(start, end, count), 1)


def _tenths(points: Points) -> list[tuple[int, int]]:
    return [(round(x * 10), round(y * 10)) for x, y in points.tolist()]


def _pairs(stitches: Stitches) -> set[tuple[tuple[int, int], tuple[int, int]]]:
    ends = stitches.xy[stitches.stitch_rows]
    return {(a, b) for a, b in zip(_tenths(ends[:, 0]), _tenths(ends[:, 1]), strict=True)}


def _divided(
    stitches: Stitches, field: tuple[float, float]
) -> tuple[Stitches, tuple[tuple[Hooping, Stitches], ...]]:
    moved, piece = lay_on_piece(stitches)
    divided = split_stitches(moved, piece, field)
    assert divided is not None
    return moved, divided


def test_the_piece_is_a_margin_larger_all_around_and_moved_by_whole_tenths() -> None:
    moved, piece = lay_on_piece(_stitches(_line((-30.3, 7.1), (60.2, 90.4), 40)))
    assert (piece.width, piece.length) == pytest.approx((90.5 + 40, 83.3 + 40))
    assert moved.needle_points.min(axis=0).tolist() == pytest.approx([MARGIN_MM, MARGIN_MM])


def test_what_fits_is_one_hooping() -> None:
    moved, divided = _divided(_stitches(_line((0, 0), (90, 0), 40)), (100, 100))
    ((hooping, part),) = divided
    assert hooping.number == 1
    assert part.xy.tolist() == moved.xy.tolist()
    assert part.op.tolist() == moved.op.tolist()


def test_what_fits_turned_is_one_hooping() -> None:
    ((hooping, _),) = _divided(_stitches(_line((0, 0), (90, 0), 40)), (30, 100))[1]
    assert hooping.turn_deg == 90


def test_whole_runs_stay_whole() -> None:
    left, right = _line((0, 0), (0, 60), 20), _line((150, 0), (150, 60), 20)
    moved, divided = _divided(_stitches(left, right), (100, 100))
    assert [len(part.needle_points) for _, part in divided] == [20, 20]
    assert np.concatenate([part.needle_points for _, part in divided]).tolist() == (
        moved.needle_points.tolist()
    )


def test_a_long_run_is_divided_and_sewn_twice_over_half_an_inch() -> None:
    stitches = _stitches(_line((0, 0), (170, 0), 86))  # stitches of 2 mm
    moved, divided = _divided(stitches, (100, 100))
    assert len(divided) == 2
    first, second = (part.needle_points for _, part in divided)
    shared = set(_tenths(first)) & set(_tenths(second))
    length = (len(shared) - 1) * 2
    assert OVERLAP_MM - 2 <= length <= OVERLAP_MM
    assert len(first) + len(second) - len(shared) == len(moved.needle_points)


def test_a_pause_between_runs_stays_between_them_and_one_within_a_run_within() -> None:
    xy = [[0, 0], [0, 0], [3, 0], [3, 0], [6, 0], [6, 0], [6, 0], [20, 0], [20, 0], [23, 0]]
    op = [
        Op.JUMP, Op.STITCH, Op.STITCH, Op.PAUSE, Op.STITCH,
        Op.CUT, Op.PAUSE, Op.JUMP, Op.STITCH, Op.STITCH,
    ]  # fmt: skip
    ((_, part),) = _divided(make_stitches(xy, op), (100, 100))[1]
    assert part.op.tolist() == op


def test_a_pause_whose_run_is_sewn_elsewhere_still_parts_the_colours() -> None:
    runs = [_line((x, 0), (x, 60), 20) for x in (0, 150, 3)]
    stitches = _stitches(*runs)
    cuts = np.flatnonzero(stitches.op == Op.CUT)
    at = np.sort(np.concatenate([np.arange(len(stitches)), cuts[:1]]))
    op = stitches.op[at]
    op[cuts[0] + 1] = Op.PAUSE
    paused = make_stitches(stitches.xy[at], op.tolist())
    _, divided = _divided(paused, (100, 100))
    ops = [part.op.tolist() for _, part in divided]
    assert sorted(kinds.count(Op.PAUSE) for kinds in ops) == [0, 1]


def test_a_stitch_across_two_fields_is_not_divided() -> None:
    moved, piece = lay_on_piece(_stitches(_line((0, 0), (300, 0), 3)))
    assert split_stitches(moved, piece, (100, 100)) is None


def test_a_field_too_small_for_so_many_hoopings_is_refused() -> None:
    moved, piece = lay_on_piece(_stitches(_line((0, 0), (2000, 2000), 1500)))
    assert split_stitches(moved, piece, (20, 20)) is None


@settings(deadline=None)
@given(
    st.lists(
        st.lists(
            st.tuples(st.integers(-60, 60), st.integers(-60, 60)), min_size=1, max_size=80
        ),
        min_size=1,
        max_size=5,
    ),
    st.integers(0, 500),
    st.sampled_from([(50.0, 50.0), (40.0, 90.0)]),
)
@example([[(-8, 0)], [(0, 0)], [(28, 0), (60, 0), (60, 0)]], 171, (50.0, 50.0))  # 49.8 wide
def test_every_stitch_is_sewn_within_reach_and_nothing_else_is(
    walks: list[list[tuple[int, int]]], apart: int, field: tuple[float, float]
) -> None:
    runs = [
        (np.cumsum(walk, axis=0) + np.array([number * apart, 0])) / 10.0
        for number, walk in enumerate(walks)
    ]
    stitches = _stitches(*runs)
    moved, divided = _divided(stitches, field)
    sewn = [part for _, part in divided]
    assert set().union(*(set(_tenths(part.needle_points)) for part in sewn)) == set(
        _tenths(moved.needle_points)
    )
    assert set().union(*(_pairs(part) for part in sewn)) == _pairs(moved)
    for hooping, part in divided:
        seen = hooping.to_field(part.needle_points)
        assert (np.abs(seen) <= np.array(field) / 2).all()
        assert np.abs(seen * 10 - np.rint(seen * 10)).max() < 1e-6  # whole tenths stay so
        assert part.op[0] == Op.JUMP
        assert part.op[-1] == Op.STITCH
