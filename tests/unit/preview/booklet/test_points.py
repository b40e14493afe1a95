"""Needle points as bytes."""

from dataclasses import replace

import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from stitchpath.geometry.points import Points
from stitchpath.model.hooping import Hooping
from stitchpath.model.plan import SewnHooping
from stitchpath.model.stitches import Op, Run
from stitchpath.preview.booklet.points import encoded_points
from tests.support.booklets import points_of
from tests.support.file_lines import file_line
from tests.support.plans import sewn_hooping, small_plan


def _sewn(runs: list[list[Points]], *, pull_up: bool = False) -> SewnHooping:
    hooping = Hooping(number=1, field=(400.0, 400.0), centre=(11.07, -3.33), turn_deg=90.0)
    return sewn_hooping(hooping, runs, pull_up=pull_up)


def _shifted(line: Points, x: float, y: float) -> Points:
    return np.asarray(line + np.array([x, y]))


def _on_grid(sewn: SewnHooping) -> Points:
    """Return the needle points in the field, in tenths of a mm as stitch files have them."""
    return np.rint(sewn.hooping.to_field(sewn.stitches.needle_points) * 10)


@given(
    arrays(np.float64, st.tuples(st.integers(2, 30), st.just(2)), elements=st.floats(-180, 180))
)
def test_points_come_back_on_the_grid_of_the_files(line: Points) -> None:
    sewn = _sewn([[line]])
    np.testing.assert_array_equal(points_of(encoded_points(sewn)), _on_grid(sewn))


def test_wide_steps_are_listed_and_near_ones_are_not() -> None:
    line = np.array([[0.0, 0.0], [0.0, 2.8]])
    sewn = _sewn([[line], [_shifted(line, 0.0, 100.0)]])
    data = encoded_points(sewn)
    assert [at for at, _, _ in data["wide"]] == [2]  # only the move to the second run
    np.testing.assert_array_equal(points_of(data), _on_grid(sewn))


def test_largest_near_step_is_12_7_mm() -> None:
    for step, wide in ((12.7, 0), (12.8, 1), (-12.7, 0), (-12.8, 1)):
        hooping = Hooping(number=1, field=(100.0, 100.0), centre=(0.0, 0.0))
        line = np.array([[0.0, 0.0], [step, 0.0]])
        data = encoded_points(sewn_hooping(hooping, [[line]], stitch_mm=20.0))
        assert len(data["wide"]) == wide, step


def test_events_stand_before_the_points_they_come_before() -> None:
    line = np.array([[0.0, 0.0], [8.4, 0.0]])  # four needle points
    hop = _shifted(line, 10.0, 0.0)
    data = encoded_points(_sewn([[line, hop], [_shifted(line, 0.0, 50.0)]], pull_up=True))
    assert data["count"] == 12
    assert data["runs"] == [0, 8]
    assert data["hops"] == [4]
    assert data["cuts"] == [8, 12]
    assert data["pauses"] == [1, 9]  # after the first stitch of a run


def test_every_needle_point_of_a_plan_is_there() -> None:
    for stage in small_plan().stages:
        for sewn in stage.hoopings:
            data = encoded_points(sewn)
            assert data["count"] == sewn.figures.stitches
            assert len(data["runs"]) == sewn.figures.runs
            assert len(data["cuts"]) == np.count_nonzero(sewn.stitches.op == Op.CUT)


def test_threads_are_told_where_a_design_changes_them() -> None:
    sewn = _sewn([[np.array([[x, 0.0], [x + 8.4, 0.0]])] for x in (0.0, 20.0, 40.0)])
    assert "threads" not in encoded_points(sewn)  # all is sewn with the stage's
    runs = tuple(
        Run(lines=(file_line(run.lines[0].points.tolist(), thread=thread),))
        for run, thread in zip(sewn.runs, (0, 2, 2), strict=True)
    )
    assert encoded_points(replace(sewn, runs=runs))["threads"] == [[4, 2]]
