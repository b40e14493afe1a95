"""Stitch files into lines: runs, moves, stops, threads, and what they keep clear."""

import numpy as np
import shapely

from stitchpath.layouts import lay_lines
from stitchpath.layouts._designs import lay_designs
from stitchpath.model.design import Design
from stitchpath.model.finding import Level
from stitchpath.model.line import run_of
from stitchpath.model.piece import StageTask
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt, Quilting
from stitchpath.model.shape import Shape
from stitchpath.pieces import make_tasks
from tests.support.designs import stitched

TWO_RUNS = stitched((0, 0), (30, 0), (60, 0), "cut", (60, 50), (60, 80), "jump", (60, 120))


def task_of(*designs: Design, quilting: tuple[Quilting, ...] = ()) -> StageTask:
    quilt = Quilt(width=200, length=200, edge_stitch=0, quilting=quilting, design=designs)
    return make_tasks(Project(quilt=quilt))[0]


def test_each_run_of_each_copy_is_a_line_in_the_files_order() -> None:
    laid = lay_designs(task_of(Design(file=TWO_RUNS, repeat="straight", columns=2, rows=1)))
    assert [(line.motif, run_of(line).run) for line in laid.lines] == [
        (0, 0), (0, 1), (1, 0), (1, 1),
    ]  # fmt: skip
    assert [len(line.points) for line in laid.lines] == [3, 3, 3, 3]
    assert run_of(laid.lines[1]).moved.tolist() == [False, False, True]
    assert [line.stitch_mm for line in laid.lines[:2]] == [3.0, 3.0]
    (told,) = laid.designs
    assert (told.copies, told.stitches, told.runs, told.left_out) == (2, 6, 2, 0)
    assert (told.way, told.size) == ("kept", (6.0, 12.0))


def test_a_needle_point_by_itself_is_left_out_and_counted() -> None:
    alone = stitched(
        (0, 0), (30, 0), "cut", (90, 90), "cut", (0, 60), (0, 60), "cut", (5, 5), (35, 5)
    )
    laid = lay_designs(task_of(Design(file=alone)))
    assert len(laid.lines) == 2
    assert laid.designs[0].left_out == 3
    assert laid.designs[0].stitches == 4


def test_later_colours_have_threads_of_their_own_across_designs() -> None:
    three = stitched(
        (0, 0), (30, 0), "colour", (0, 9), (30, 9), "colour", (0, 20), (30, 20),
        colours=("#111111", "#222222", "#333333"),
    )  # fmt: skip
    laid = lay_designs(task_of(Design(file=three), Design(file=three)))
    assert [run_of(line).thread for line in laid.lines] == [0, 1, 2, 0, 3, 4]
    assert laid.designs[0].colours == ("#111111", "#222222", "#333333")


def test_in_one_colour_all_is_sewn_with_the_stages_thread() -> None:
    two = stitched((0, 0), (30, 0), "colour", (0, 9), (30, 9))
    laid = lay_designs(task_of(Design(file=two, colours="one")))
    assert [run_of(line).thread for line in laid.lines] == [0, 0]
    assert laid.designs[0].colours == ("",)


def test_a_stop_stays_where_the_file_has_it() -> None:
    laid = lay_designs(task_of(Design(file=stitched((0, 0), (30, 0), "stop", (60, 0)))))
    (line,) = laid.lines
    assert run_of(line).paused.tolist() == [False, False, True]


def test_a_stop_between_runs_comes_before_the_later_one() -> None:
    file = stitched((0, 0), (30, 0), "cut", "stop", (60, 0), (90, 0))
    first, last = lay_designs(task_of(Design(file=file))).lines
    assert not run_of(first).paused.any()
    assert run_of(last).paused.tolist() == [True, False]


def test_an_area_without_room_for_a_copy_is_warned_of() -> None:
    area = Shape(rectangle=(0, 0, 5, 5))
    laid = lay_designs(task_of(Design(file=TWO_RUNS, repeat="straight", area=area)))
    assert laid.lines == ()
    (finding,) = laid.findings
    assert (finding.code, finding.level) == ("design", Level.WARNING)
    assert finding.text == "no copy of heron.exp lies whole within its area"


def test_quilting_keeps_as_far_from_a_design_as_it_is_told() -> None:
    ring = stitched(
        *[
            (round(300 * np.cos(a)), round(300 * np.sin(a)))
            for a in np.linspace(0, 2 * np.pi, 60)
        ]
    )
    quilting = (Quilting(layout="crosshatch", spacing=10),)
    apart = lay_lines(task_of(Design(file=ring, keep_clear=4), quilting=quilting))
    through = lay_lines(task_of(Design(file=ring), quilting=quilting))
    for laid, distance in ((apart, 4.0), (through, 0.0)):
        own = [line for line in laid.lines if line.file_run is not None]
        others = [line for line in laid.lines if line.file_run is None]
        inside = shapely.Polygon(own[0].points)
        nearest = min(inside.distance(shapely.LineString(line.points)) for line in others)
        assert abs(nearest - distance) < 0.02


def test_no_two_motifs_share_a_number() -> None:
    quilting = (Quilting(layout="text", text="reed", height=30),)
    laid = lay_lines(task_of(Design(file=TWO_RUNS), Design(file=TWO_RUNS), quilting=quilting))
    of_designs = {line.motif for line in laid.lines if line.file_run is not None}
    of_layouts = {line.motif for line in laid.lines if line.file_run is None}
    assert of_designs == {0, 1}
    assert not of_designs & of_layouts
