"""The order of sewing, and what a plan comes to, as text."""

from dataclasses import replace

import pytest

from stitchpath.cli.marks import marks_table
from stitchpath.cli.order import sewing_order
from stitchpath.cli.summary import show_summary
from stitchpath.cli.tables import show_table
from stitchpath.estimate.bobbins import wind_bobbins
from stitchpath.model.hooping import Mark, Overhang, Throat
from stitchpath.model.plan import Basting, Figures, Plan
from stitchpath.model.route import RouteFigures
from stitchpath.preview.data import Files
from stitchpath.preview.words import duration
from tests.support.plans import MISS, small_plan

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
    row = next(line for line in text.splitlines() if line.startswith("     field"))
    assert f", {lies}; its middle" in row


def test_mark_is_told_from_every_edge_and_from_the_middle_in_the_projects_unit() -> None:
    """Mark E of the seam lies at 95, 290 mm on a quilt of 360 x 480 mm.

    3.740, 10.433, 11.417 and 7.480 in from the edges, 3.346 in left of and 1.969 in below the
    middle; all to a sixteenth of an inch (arithmetic).
    """
    seam = small_plan().stages[1]
    row = marks_table(seam, "in").splitlines()[1]
    assert " ".join(row.split()) == (
        "E 3 3/4 in 10 7/16 in 11 7/16 in 7 1/2 in 3 3/8 in left, 1 15/16 in down"
    )


def test_mark_on_a_middle_line_has_no_side() -> None:
    quilt = small_plan().stages[0]
    hooping = replace(
        quilt.hoopings[0].hooping, marks=(Mark(name="A", piece=(180, 40), field=(0, 0)),)
    )
    stage = replace(quilt, hoopings=(replace(quilt.hoopings[0], hooping=hooping),))
    assert marks_table(stage, "mm").splitlines()[1].endswith("  0, 200 mm up")


def test_needle_is_told_in_tenths_of_a_mm_of_the_field() -> None:
    text = sewing_order(small_plan(), _FILES)
    marks = text[text.index("seam/01.dst") :]
    assert "mark E       needle at -85.0, -110.0 mm;" in marks
    assert "mark F       needle at 85.0, -110.0 mm;" in marks


def test_hooping_without_marks_tells_of_none() -> None:
    plan = _turned(small_plan(), 0.0)
    stage = plan.stages[0]
    bare = tuple(
        replace(sewn, hooping=replace(sewn.hooping, marks=())) for sewn in stage.hoopings
    )
    text = sewing_order(replace(plan, stages=(replace(stage, hoopings=bare),)), _FILES)
    assert "needle at" not in text
    assert "marks on the quilt" not in text


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


def test_lengths_in_fractions_of_an_inch_are_lined_up_like_other_numbers() -> None:
    text = show_table(("mark", "left"), [("A", "17 1/8 in"), ("B", "3/8 in"), ("C", "-1 in")])
    assert text.splitlines() == [
        "mark       left",
        "A     17 1/8 in",
        "B        3/8 in",
        "C         -1 in",
    ]


def test_bobbins_that_go_on_from_stage_to_stage_are_said_to() -> None:
    plan = small_plan()
    wound = wind_bobbins(plan.stages, plan.project)
    stages = tuple(replace(stage, bobbins=1) for stage in plan.stages)
    told = "a bobbin goes on to the next stage with its colour"
    shared = replace(plan, stages=stages, estimate=replace(plan.estimate, bobbins=wound))
    assert told in show_summary(shared).splitlines()
    apart = replace(shared, stages=stages[:1])
    assert told not in show_summary(apart)


@pytest.mark.parametrize(
    ("seconds", "text"),
    [(0, "0 s"), (59.4, "59 s"), (59.6, "1 min"), (3570, "1 h 0 min"), (7260, "2 h 1 min")],
)
def test_time_is_told_as_a_maker_reads_it(seconds: float, text: str) -> None:
    assert duration(seconds) == text


def test_no_figures_make_an_empty_sum() -> None:
    plan = replace(small_plan(), stages=())
    assert plan.figures == Figures()
    assert show_summary(plan).splitlines()[1].split()[:3] == ["all", "0", "0"]


def test_basting_refits_and_joins_are_told_under_their_stage() -> None:
    plan = small_plan()
    quilt = plan.stages[0]
    first, *rest = quilt.hoopings
    basted = replace(first, basting=Basting(marks=("A",), box=True, stitches=9))
    stage = replace(quilt, hoopings=(basted, *rest), miss=MISS)
    text = sewing_order(replace(plan, stages=(stage,)), _FILES)
    block = " ".join(text[text.index("hooping 1: ") : text.index("hooping 2: ")].split())
    assert "new mark A needle at" in block
    assert "mark A; a box round the work; the machine pauses after it" in block
    assert "95 of 100 miss by less than 0.06 in, 0.07 in at the worst place" in text


def _placed(throat: Throat, overhang: Overhang) -> str:
    """Return the block of a first hooping that lies so, its lines run together."""
    plan = small_plan()
    quilt = plan.stages[0]
    first, *rest = quilt.hoopings
    hooping = replace(first.hooping, throat=throat, overhang=overhang)
    stage = replace(quilt, hoopings=(replace(first, hooping=hooping), *rest))
    text = sewing_order(replace(plan, stages=(stage,)), _FILES)
    return " ".join(text[text.index("hooping 1: ") : text.index("hooping 2: ")].split())


@pytest.mark.parametrize(
    ("roll", "fits", "told"),
    [
        (0.0, True, "the left edge, flat field"),
        (0.0, False, "the left edge, flat; the hoop is too large for the throat field"),
        (50.8, True, "the left edge, in a roll of 2 in, which fits the throat field"),
        (50.8, False, "the left edge, in a roll of 2 in: too large for the throat field"),
    ],
)
def test_what_lies_in_the_throat_is_told(roll: float, fits: bool, told: str) -> None:
    throat = Throat(side="left", width=180.0, roll=roll, fits=fits)
    assert f"to the right {told}" in _placed(throat, Overhang())


def test_edges_to_float_are_told_with_how_far_the_ring_reaches() -> None:
    block = _placed(
        Throat(side="left", width=9.0, roll=0, fits=True), Overhang(left=25.4, bottom=12.7)
    )
    assert (
        "float the hoop's ring reaches 1 in past the left edge, 1/2 in past the bottom edge"
        in block
    )


def test_a_ring_that_backing_and_batting_hold_needs_no_floating() -> None:
    """A bound quilt's reach 50 mm beyond its edge unless the project says otherwise."""
    plan = small_plan()
    quilt = plan.stages[0]
    sewn = quilt.hoopings[0]
    hooping = replace(sewn.hooping, overhang=Overhang(left=25.4, right=25.4))
    stage = replace(quilt, hoopings=(replace(sewn, hooping=hooping),))
    told = {}
    for edge in ("turned", "bound"):
        project = replace(plan.project, quilt=replace(plan.project.quilt, edge=edge))
        text = sewing_order(replace(plan, project=project, stages=(stage,)), _FILES)
        told[edge] = " ".join(text.split())
    reaches = "the hoop's ring reaches 1 in past the left and right edges"
    assert f"float {reaches} mark" in told["turned"]
    assert f"ring {reaches}; backing and batting hold it mark" in told["bound"]


def test_the_piece_is_turned_before_the_hooping_that_lies_the_other_way() -> None:
    """Of four hoopings the last lies upside down."""
    text = sewing_order(small_plan(), _FILES)
    quilt = text[: text.index("seam/01.dst")]
    assert quilt.count("turn first   the quilt, by 180 degrees") == 1
    assert quilt.index("hooping 4: ") < quilt.index("turn first")


def test_every_line_fits_a_page() -> None:
    """A hundred letters to a line, for long measures in inches too."""
    plan = small_plan()
    piece = replace(plan.stages[0].piece, width=2743.2, length=2743.2)
    rest = replace(plan.stages[0].hoopings[0].hooping, centre=(2706.7, 2706.7))
    far = replace(
        rest, marks=tuple(replace(mark, piece=(2706.7, 2706.7)) for mark in rest.marks)
    )
    hoopings = (replace(plan.stages[0].hoopings[0], hooping=far),)
    stage = replace(plan.stages[0], piece=piece, hoopings=hoopings)
    text = sewing_order(replace(plan, stages=(stage,)), _FILES)
    assert "106 9/16 in" in text
    assert max(map(len, text.splitlines())) <= 100


@pytest.mark.parametrize(
    ("sewn", "told"), [(True, "Draw the basting"), (False, "pdf shows it")]
)
def test_how_marks_come_onto_the_piece_is_told(sewn: bool, told: str) -> None:
    plan = small_plan()
    rules = replace(plan.project.hoopings, sew_marks=sewn)
    text = sewing_order(replace(plan, project=replace(plan.project, hoopings=rules)), _FILES)
    assert told in text
