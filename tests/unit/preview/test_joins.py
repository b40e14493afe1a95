"""Joins as pictures and pages have them."""

from dataclasses import replace

import numpy as np
import pytest

from stitchpath.model.plan import Plan, Stage
from stitchpath.model.project import HoopingRules
from stitchpath.preview import draw_hooping, draw_stage
from stitchpath.preview.joins import Meeting, draw_neighbours, meetings_of
from stitchpath.preview.labels import Room, place_label
from stitchpath.preview.look import choose_look
from stitchpath.preview.polylines import Polylines
from stitchpath.preview.stage_picture import MOST_JOINS
from stitchpath.preview.svg import new_drawing
from stitchpath.preview.tags import tag_extent
from tests.support.plans import JOINS, joined_plan
from tests.support.svg_reader import SVG, layer, polylines, texts


def _quilt(planned: Plan) -> Stage:
    return planned.stages[0]


def test_a_hooping_meets_its_neighbours_by_their_numbers() -> None:
    planned = joined_plan()
    assert meetings_of(planned, _quilt(planned), 1) == (
        Meeting(other=2, places=((180, 60), (180, 120)), on_crossings=1, miss_mm=1.7),
        Meeting(other=4, places=((180, 240),), on_crossings=0, miss_mm=1.6),
    )
    met = meetings_of(planned, _quilt(planned), 3)
    assert [(one.other, one.miss_mm) for one in met] == [(2, 1.4)]


def test_where_marks_are_sewn_errors_add_up() -> None:
    planned = joined_plan()
    rules = HoopingRules(sew_marks=True)
    sewn = replace(planned, project=replace(planned.project, hoopings=rules))
    assert [one.miss_mm for one in meetings_of(sewn, _quilt(sewn), 1)] == [1.7, 9.0]


def test_what_nobody_worked_out_is_not_told() -> None:
    planned = joined_plan(miss=None)
    assert {one.miss_mm for one in meetings_of(planned, _quilt(planned), 1)} == {None}


def test_a_stage_has_a_diamond_at_every_join() -> None:
    planned = joined_plan()
    svg = draw_stage(planned, _quilt(planned))
    diamonds = polylines(layer(svg, "joins").findall(f"{SVG}path")[-1])
    middles = [diamond.mean(axis=0).tolist() for diamond in diamonds]
    assert middles == [pytest.approx(join.place, abs=0.01) for join in JOINS]
    assert "lines of two hoopings meet" in texts(svg, "legend")


def test_a_hooping_has_its_own_joins_in_its_own_frame_with_the_neighbours_number() -> None:
    planned = joined_plan()
    sewn = _quilt(planned).hoopings[3]
    svg = draw_hooping(planned, _quilt(planned), sewn)
    (diamond,) = polylines(layer(svg, "joins").findall(f"{SVG}path")[-1])
    place = sewn.hooping.to_field(np.array([JOINS[1].place]))[0]
    assert diamond.mean(axis=0) == pytest.approx(place, abs=0.01)
    assert texts(svg, "join-numbers") == ["1"]


def test_no_run_is_numbered_right_beside_a_neighbours_number() -> None:
    look = choose_look(
        Polylines.of([]), longer_side_mm=400, widest_mark_mm=9, thread_colour="#008080"
    )
    room = Room(cell=20, within=(-200, -200, 200, 200))
    draw_neighbours(new_drawing((-200, -200, 400, 400)), [("4", (0.0, 0.0))], look, room)
    extent = tag_extent("3", 0.8 * look.mark)
    start = (-0.4 * look.mark, 0.0)
    numbered = place_label(start, extent, room, gap=0.46 * look.mark, must=False)
    assert numbered is not None
    assert numbered[2] < 0  # the neighbour's is on the right of the join, the run's on its left


def test_without_joins_there_is_neither_layer_nor_entry() -> None:
    planned = joined_plan(joins=(), miss=None)
    quilt = _quilt(planned)
    for svg in (draw_stage(planned, quilt), draw_hooping(planned, quilt, quilt.hoopings[0])):
        assert 'id="joins"' not in svg
        assert "hoopings meet" not in " ".join(texts(svg, "legend"))


def test_too_many_joins_are_left_to_the_hoopings() -> None:
    planned = joined_plan(joins=JOINS * (MOST_JOINS // 4 + 1), miss=None)
    assert 'id="joins"' not in draw_stage(planned, _quilt(planned))
    assert meetings_of(planned, _quilt(planned), 1)
