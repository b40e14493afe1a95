"""What holds for the plan of any project."""

import numpy as np
import pytest
import shapely
from hypothesis import event, given, settings

from stitchpath.geometry.points import segment_lengths
from stitchpath.geometry.tolerance import MEETING_MM
from stitchpath.model.line import Line
from stitchpath.model.machine import Machine
from stitchpath.model.plan import SewnHooping, Stage
from stitchpath.model.project import Project
from stitchpath.model.stitches import Op
from stitchpath.pipeline import plan
from tests.strategies import projects
from tests.support.sewn import (
    all_hoopings,
    designed,
    farthest_mm,
    in_file,
    stage_paths,
    uncovered_mm,
)

DEVIATION_MM = 0.05
MISSED_MM = 0.2
NOISE_MM = 1e-6

any_project = settings(max_examples=max(10, settings().max_examples // 4))
"""Planning takes long, and each of these tests plans projects of its own."""


def _sewn_stages(project: Project) -> list[Stage]:
    stages = [stage for stage in plan(project).stages if stage.hoopings]
    event(f"stages: {len(stages)}, hoopings: {min(9, sum(len(s.hoopings) for s in stages))}")
    return stages


@any_project
@given(project=projects())
def test_needle_points_stay_in_their_field_in_files(project: Project) -> None:
    for sewn in all_hoopings(plan(project).stages):
        half = np.array(sewn.hooping.field) / 2
        assert np.all(np.abs(in_file(sewn)) <= half + NOISE_MM)


@any_project
@given(project=projects())
def test_no_stitch_in_a_file_is_longer_than_the_longest(project: Project) -> None:
    for sewn in all_hoopings(plan(project).stages):
        lengths, _ = _file_lengths(sewn)
        assert np.all(lengths <= project.machine.longest_stitch + NOISE_MM)
        assert np.all(lengths > 0), "sewn on the spot"


@any_project
@given(project=projects())
def test_only_ties_and_pieces_of_line_that_short_have_shorter_stitches_than_the_shortest(
    project: Project,
) -> None:
    shortest = project.machine.shortest_stitch
    for stage in _sewn_stages(project):
        pieces = np.concatenate([_pieces(sewn) for sewn in stage.hoopings])
        for sewn in stage.hoopings:
            lengths, is_tie = _file_lengths(sewn)
            for length in lengths[~is_tie & (lengths < shortest - NOISE_MM)]:
                assert np.abs(pieces - length).min() <= 0.1415, "no piece of line is so short"


@any_project
@given(project=projects())
def test_nothing_is_sewn_beside_the_designed_lines(project: Project) -> None:
    for stage in _sewn_stages(project):
        assert farthest_mm(designed(stage), stage_paths(stage)) <= DEVIATION_MM


@any_project
@given(project=projects())
def test_everything_designed_is_sewn(project: Project) -> None:
    for stage in _sewn_stages(project):
        missed = uncovered_mm(designed(stage), stage_paths(stage), reach_mm=MISSED_MM)
        assert missed <= NOISE_MM


@any_project
@given(project=projects())
def test_at_joins_the_overlap_is_sewn_twice_and_nothing_else_is(project: Project) -> None:
    """For straight lines: neighbouring parts overlap by what is asked for, or to the end.

    What a hooping sews again to save a cut is left aside: the route's own tests hold it.
    """
    overlap = project.hoopings.overlap
    for stage in _sewn_stages(project):
        parts = _parts_of(stage)
        for line in stage.lines:
            if len(line.points) != 2:
                continue
            spans = np.array(_spans_on(line, parts))
            length = segment_lengths(line.points)[0]
            assert spans[0, 0] == pytest.approx(0, abs=MEETING_MM)
            assert spans[-1, 1] == pytest.approx(length, abs=MEETING_MM)
            shared = spans[:-1, 1] - spans[1:, 0]
            clipped = (spans[:-1, 1] >= length - MEETING_MM) | (spans[1:, 0] <= MEETING_MM)
            np.testing.assert_allclose(shared[~clipped], overlap, atol=2 * MEETING_MM)
            assert np.all(shared[clipped] <= overlap + 2 * MEETING_MM)
            assert np.all(shared >= -2 * MEETING_MM)


@any_project
@given(project=projects())
def test_hoopings_are_numbered_from_one_without_a_gap(project: Project) -> None:
    for stage in _sewn_stages(project):
        numbers = [sewn.hooping.number for sewn in stage.hoopings]
        assert numbers == list(range(1, len(numbers) + 1))


@any_project
@given(project=projects())
def test_every_run_begins_with_a_move_and_cuts_lie_between_runs(project: Project) -> None:
    machine: Machine = project.machine
    for stage in _sewn_stages(project):
        drawn = machine.bobbin_pull_up
        draws_up = drawn == "always" or (drawn == "seam" and stage.name == "seam")
        for sewn in stage.hoopings:
            op, runs = sewn.stitches.op, len(sewn.runs)
            assert op[0] == Op.JUMP
            assert op[-1] == Op.STITCH
            assert np.sum(op == Op.CUT) == (runs - 1 if machine.cuts_thread else 0)
            assert np.sum(op == Op.PAUSE) == (runs if draws_up else 0)
            assert np.all(op[np.flatnonzero(op == Op.CUT) + 1] == Op.JUMP)


@any_project
@given(project=projects())
def test_marks_lie_on_the_piece_and_in_the_field(project: Project) -> None:
    for stage in _sewn_stages(project):
        size = np.array([stage.piece.width, stage.piece.length])
        for sewn in stage.hoopings:
            for mark in sewn.hooping.marks:
                assert np.all(np.array(mark.piece) >= 0)
                assert np.all(np.array(mark.piece) <= size)
                assert np.all(np.abs(mark.field) <= np.array(sewn.hooping.field) / 2)


def _file_lengths(sewn: SewnHooping) -> tuple[np.ndarray, np.ndarray]:
    xy, rows = in_file(sewn), sewn.stitches.stitch_rows
    steps = xy[rows[:, 1]] - xy[rows[:, 0]]
    return np.hypot(steps[:, 0], steps[:, 1]), sewn.stitches.tie[rows[:, 1]]


def _pieces(sewn: SewnHooping) -> np.ndarray:
    """Return the lengths of what lies between vertices of the lines that a hooping sews."""
    lines = [line for run in sewn.runs for line in run.lines]
    return np.concatenate([segment_lengths(line.points) for line in lines])


def _parts_of(stage: Stage) -> list[Line]:
    """Return the parts of lines that hoopings sew, without what they sew again on the way."""
    lines = [line for sewn in stage.hoopings for run in sewn.runs for line in run.lines]
    return [line for line in lines if not line.again]


def _spans_on(line: Line, parts: list[Line]) -> list[tuple[float, float]]:
    """Return the stretches of a straight line that parts of it cover, in order along it."""
    shape = shapely.LineString(line.points)
    found: list[tuple[float, float]] = []
    for part in parts:
        if part.kind is not line.kind or part.anchor is not line.anchor:
            continue
        ends = shapely.points(part.points)
        if len(part.points) == 2 and shapely.distance(shape, ends).max() <= MEETING_MM:
            along = np.atleast_1d(shapely.line_locate_point(shape, ends))
            if abs(along[1] - along[0]) > MEETING_MM:
                found.append((float(along.min()), float(along.max())))
    return sorted(found)
