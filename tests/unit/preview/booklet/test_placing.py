"""What a hooping's page says of its place, its neighbours and its ring."""

from dataclasses import replace

import numpy as np
import pytest

from stitchpath.model.hooping import Overhang, Throat
from stitchpath.model.plan import Basting, SewnHooping, Stage
from stitchpath.preview.booklet.facts import ring_text, throat_text, turn_text
from stitchpath.preview.booklet.pictures import hooping_picture
from stitchpath.preview.booklet.placing import placing
from tests.support.html_reader import read_html
from tests.support.plans import JOINS, joined_plan, small_plan
from tests.support.svg_reader import parsed

PLAN = small_plan()
QUILT, SEAM = PLAN.stages
SEWN = SEAM.hoopings[0]


def _rows(stage: Stage, sewn: SewnHooping) -> list[list[str]]:
    rows: list[list[str]] = []
    for cell in read_html(placing(PLAN, stage, sewn, {})):
        if cell.name == "tr":
            rows.append([])
        elif cell.name in {"th", "td"}:
            rows[-1].append(cell.text)
    return rows


def test_marks_are_told_on_the_piece_and_in_the_field() -> None:
    assert _rows(SEAM, SEWN)[1] == ["E", "3 3/4 in", "11 7/16 in", "-85.0, -110.0"]


@pytest.mark.parametrize(
    ("marks", "told"),
    [
        (("E",), "Draw mark E first: it is basted here, not there yet."),
        (("E", "F"), "Draw marks E, F first: they are basted here, not there yet."),
    ],
)
def test_marks_that_a_hooping_bastes_are_to_be_drawn_first(
    marks: tuple[str, ...], told: str
) -> None:
    sewn = replace(SEWN, basting=Basting(marks=marks, stitches=40))
    assert told in placing(PLAN, SEAM, sewn, {})
    assert "Draw mark" not in placing(PLAN, SEAM, SEWN, {})


def test_refit_is_told_as_it_is_typed() -> None:
    files = {("seam", 1): {"exp": "seam/01.exp", "dst": "seam/01.dst"}}
    html = placing(PLAN, SEAM, SEWN, files)
    (code,) = (one.text for one in read_html(html) if one.name == "code")
    assert code == (
        "stitchpath refit PROJECT --stage seam --hooping 1 --mark E=x,y --mark F=x,y "
        "--out seam-01-again.exp"
    )
    assert "with the machine stopped" in html


def test_who_is_joined_is_told_with_what_to_expect() -> None:
    stage = joined_plan().stages[0]
    assert _rows(stage, QUILT.hoopings[1])[-2:] == [
        ["hooping 1", "before", "2, 1 on crossings", "0.07 in"],
        ["hooping 3", "later", "1", "0.06 in"],
    ]
    assert (
        _rows(replace(stage, joins=JOINS[:1]), QUILT.hoopings[1])[-1][2] == "1, on a crossing"
    )
    unknown = replace(stage, miss=None)
    assert _rows(unknown, QUILT.hoopings[2])[-1] == ["hooping 2", "before", "1", "-"]


def test_joins_are_drawn_with_each_neighbours_number_once() -> None:
    stage = joined_plan().stages[0]
    drawn = read_html(hooping_picture(PLAN, stage, QUILT.hoopings[0]))
    (diamonds,) = (one for one in drawn if one.attributes.get("class") == "join")
    places = [line.mean(axis=0) / 2 for line in parsed(diamonds.attributes["d"] or "")]
    centre = QUILT.hoopings[0].hooping.centre
    assert np.array(places) + centre == pytest.approx(
        np.array([JOINS[at].place for at in (0, 2, 1)]), abs=0.26
    )
    assert [one.text for one in drawn if one.attributes.get("class") == "number"] == [
        "A",
        "2",
        "4",
    ]


def test_without_marks_and_joins_there_is_nothing_to_say() -> None:
    bare = replace(SEWN, hooping=replace(SEWN.hooping, marks=()))
    assert placing(PLAN, SEAM, bare, {}) == ""
    single = replace(SEWN, hooping=replace(SEWN.hooping, marks=SEWN.hooping.marks[:1]))
    assert "refit" not in placing(PLAN, SEAM, single, {})


@pytest.mark.parametrize(
    ("throat", "end"),
    [
        (None, "of the quilt"),
        (Throat(side="right", width=150, roll=0, fits=True), ", flat"),
        (
            Throat(side="right", width=900, roll=50.8, fits=True),
            ", rolled up to the ring, 2 in thick",
        ),
        (
            Throat(side="right", width=90, roll=0, fits=False),
            ", flat: the hoop is too large for the throat",
        ),
        (
            Throat(side="right", width=900, roll=152.4, fits=False),
            ", 6 in thick: too much for a throat of 9 in x 5 in",
        ),
    ],
)
def test_the_roll_in_the_throat_is_told(throat: Throat | None, end: str) -> None:
    hooping = replace(SEWN.hooping, throat=throat)
    assert throat_text(hooping, SEAM.piece, (228.6, 127.0), "in").endswith(end)


def test_the_ring_is_told_where_it_leaves_the_piece() -> None:
    past = replace(SEWN.hooping, overhang=Overhang(left=25.4, bottom=50.8))
    assert ring_text(past, 0, "in") == (
        "reaches 1 in past the left edge, 2 in past the bottom edge: "
        "float it there on stabiliser, or baste strips to it"
    )
    assert ring_text(past, 50.8, "in").endswith(": backing and batting hold it")
    assert ring_text(SEWN.hooping, 0, "in") == ""


def test_the_piece_is_turned_where_the_field_lies_another_way() -> None:
    """The small plan's fourth hooping lies upside down."""
    told = [turn_text(QUILT, one.hooping) for one in QUILT.hoopings]
    assert told == ["", "", "", "turn the quilt by 180 degrees first"]
