"""The order of sewing, and what a plan comes to, as text."""

from dataclasses import replace

import pytest

from stitchpath.cli.order import sewing_order
from stitchpath.cli.summary import show_summary
from stitchpath.cli.tables import show_table, show_time
from stitchpath.model.plan import Figures, Plan
from stitchpath.model.route import RouteFigures
from stitchpath.preview.data import Files
from tests.support.plans import small_plan

_FILES: Files = {
    (stage.name, sewn.hooping.number): {
        name: f"{stage.name}/{sewn.hooping.number:02}.{name}" for name in ("dst", "exp")
    }
    for stage in small_plan().stages
    for sewn in stage.hoopings
}


def _turned(plan: Plan, degrees: float) -> Plan:
    """Turn the first hooping of a plan."""
    stage = plan.stages[0]
    first = stage.hoopings[0]
    hooping = replace(first.hooping, turn_deg=degrees)
    hoopings = (replace(first, hooping=hooping), *stage.hoopings[1:])
    return replace(plan, stages=(replace(stage, hoopings=hoopings), *plan.stages[1:]))


def test_files_come_stage_by_stage_and_by_number() -> None:
    text = sewing_order(small_plan(), _FILES)
    places = [text.index(files["dst"]) for files in _FILES.values()]
    assert places == sorted(places)
    assert "quilt/01.dst, .exp" in text


@pytest.mark.parametrize(
    ("degrees", "lies"),
    [
        (0.0, "upright"),
        (90.0, "with its top to the right"),
        (180.0, "upside down"),
        (270.0, "with its top to the left"),
        (-90.0, "with its top to the left"),
        (12.5, "turned 12.5 degrees clockwise"),
    ],
)
def test_field_is_told_as_it_lies(degrees: float, lies: str) -> None:
    text = sewing_order(_turned(small_plan(), degrees), _FILES)
    (row,) = (line for line in text.splitlines() if "quilt/01.dst" in line)
    assert lies in row


def test_mark_is_told_from_the_left_and_the_top_edge_in_the_projects_unit() -> None:
    # mark A of the seam lies at 95 mm, 290 mm: 3.740 in and 11.417 in, so 3 3/4 and 11 7/16
    (row,) = (
        line
        for line in sewing_order(small_plan(), _FILES).splitlines()
        if "seam/01.dst" in line
    )
    assert "3 3/4 in / 11 7/16 in" in row


def test_mark_that_is_not_there_leaves_its_place_empty() -> None:
    text = sewing_order(small_plan(), _FILES)
    (row,) = (line for line in text.splitlines() if "quilt/01.dst" in line)
    assert "  -  " in row  # the quilt's hoopings have a mark A only


def test_cautions_are_in_it() -> None:
    assert "\n- mind your hands\n" in sewing_order(small_plan(), _FILES)


def test_summary_of_several_stages_has_their_sum_and_their_order() -> None:
    lines = show_summary(small_plan()).splitlines()
    assert [line.split()[0] for line in lines[1:4]] == ["quilt", "seam", "all"]
    assert "sew the quilt, then the seam" in lines


def test_summary_says_who_cuts() -> None:
    plan = small_plan()
    snipped = replace(plan.stages[0], figures=replace(plan.stages[0].figures, snips=7))
    assert "snipped by hand" in show_summary(replace(plan, stages=(snipped,)))
    assert "snipped by hand" not in show_summary(plan)


@pytest.mark.parametrize("islands", [0, 2])
def test_summary_tells_lines_closed_in_though_one_run_sews_it_all(islands: int) -> None:
    plan = small_plan()
    first = plan.stages[0].hoopings[0]
    sewn = replace(first, route=RouteFigures(runs=1, least_runs=1, islands=islands))
    stage = replace(plan.stages[0], hoopings=(sewn,))
    told = "2 lines are closed in" in show_summary(replace(plan, stages=(stage,)))
    assert told == (islands == 2)


def test_table_lines_numbers_up_to_the_right_but_sizes_to_the_left() -> None:
    text = show_table(
        ("name", "a", "b"), [("10", "1,200", "2 x 3 mm"), ("9", "7", "12 x 3 mm")]
    )
    assert text.splitlines() == [
        "name      a  b",
        "10    1,200  2 x 3 mm",
        "9         7  12 x 3 mm",
    ]


@pytest.mark.parametrize(
    ("seconds", "text"),
    [(0, "0 s"), (59.4, "59 s"), (59.6, "1 min"), (3570, "1 h 0 min"), (7260, "2 h 1 min")],
)
def test_time_is_told_as_a_maker_reads_it(seconds: float, text: str) -> None:
    assert show_time(seconds) == text


def test_no_figures_make_an_empty_sum() -> None:
    plan = replace(small_plan(), stages=())
    assert plan.figures == Figures()
    assert show_summary(plan).splitlines()[1].split()[:3] == ["all", "0", "0"]
