"""What holds for the order of any lines."""

from collections import Counter
from itertools import pairwise

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from stitchpath.model.line import Line, LineKind
from stitchpath.route.order import UNCUT_TRAVEL_MM, order_runs
from tests.strategies import lines

any_lines = st.lists(lines(), max_size=8).map(tuple)


def _key(line: Line) -> tuple[object, ...]:
    """Return what a line is, whichever way round it is sewn."""
    way, back = line.points.tobytes(), line.points[::-1].tobytes()
    return line.kind, line.anchor, line.stitch_mm, *sorted((way, back))


def _order(given_lines: tuple[Line, ...]) -> list[Line]:
    return [line for run in order_runs(given_lines) for line in run.lines]


@given(given_lines=any_lines)
def test_every_line_is_sewn_once_one_way_or_the_other(given_lines: tuple[Line, ...]) -> None:
    assert Counter(map(_key, _order(given_lines))) == Counter(map(_key, given_lines))


@given(given_lines=any_lines)
def test_anchors_come_first_and_kinds_in_their_order(given_lines: tuple[Line, ...]) -> None:
    kinds = list(LineKind)
    ranks = [(not line.anchor, kinds.index(line.kind)) for line in _order(given_lines)]
    assert ranks == sorted(ranks)


@given(given_lines=any_lines)
def test_anchors_keep_the_order_they_are_given_in(given_lines: tuple[Line, ...]) -> None:
    anchors = [_key(line) for line in given_lines if line.anchor]
    assert [_key(line) for line in _order(given_lines)][: len(anchors)] == anchors


@given(given_lines=any_lines)
def test_the_thread_is_cut_just_where_the_way_is_long(given_lines: tuple[Line, ...]) -> None:
    runs = order_runs(given_lines)
    for run in runs:
        for before, after in pairwise(run.lines):
            assert np.hypot(*(after.points[0] - before.points[-1])) <= UNCUT_TRAVEL_MM
    for cut_run, next_run in pairwise(runs):
        travel = np.hypot(*(next_run.lines[0].points[0] - cut_run.lines[-1].points[-1]))
        assert travel > UNCUT_TRAVEL_MM


@given(given_lines=any_lines)
def test_within_a_kind_no_end_left_is_nearer_than_the_one_taken(
    given_lines: tuple[Line, ...],
) -> None:
    ordered = _order(given_lines)
    for at, (before, after) in enumerate(pairwise(ordered), start=1):
        if after.anchor:
            continue
        needle = before.points[-1]
        left = [line for line in ordered[at:] if line.kind is after.kind]
        ends = np.concatenate([line.points[[0, -1]] for line in left])
        taken = np.hypot(*(after.points[0] - needle))
        assert taken <= np.hypot(*(ends - needle).T).min() + 2e-6
