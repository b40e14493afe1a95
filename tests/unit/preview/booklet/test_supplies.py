"""What the booklet tells of the data of plan.json, where it is there."""

import pytest

from stitchpath.preview.booklet import supplies
from tests.support.html_reader import Element, read_html

DATA = {
    "buying": {
        "cloth": [{"name": "top", "usable_width": 1016.0, "length": 1400.0, "buy": 1371.6}],
        "batting": {"name": "crib <b>", "width": 1143.0, "length": 1524.0},
        "thread": [{"colour": "#6a5acd", "buy_mm": 94_300.0, "spools": 1}],
        "bobbins": [
            {
                "colour": "#f5deb3",
                "changes": [
                    {"stage": "quilt", "hooping": 9, "stitch": 120, "within": False},
                    {"stage": "quilt", "hooping": 17, "stitch": 1250, "within": True},
                ],
            }
        ],
    },
    "folding": {"steps": ["fold the left third over", "fold the right third over"]},
    "sessions": [
        {
            "first": {"stage": "pocket", "hooping": 1},
            "last": {"stage": "quilt", "hooping": 3},
            "hoopings": 7,
            "seconds": 7260.0,
            "over": False,
        },
        {
            "first": {"stage": "quilt", "hooping": 4},
            "last": {"stage": "quilt", "hooping": 4},
            "hoopings": 1,
            "seconds": 9000.0,
            "over": True,
        },
    ],
}


def _rows(elements: list[Element]) -> list[list[str]]:
    cells = [one.text for one in elements if one.name in {"th", "td"}]
    width = sum(one.attributes.get("scope") == "col" for one in elements)
    return [cells[at : at + width] for at in range(width, len(cells), width)]


def test_what_to_buy_is_told_in_the_projects_unit() -> None:
    assert _rows(read_html(supplies.buying_section(DATA, "in"))) == [
        ["top", "54 in", "cloth of 40 in usable width"],  # 1371.6 / 25.4, 1016 / 25.4
        ["batting", "1 ready-cut", "crib <b>, 45 in x 60 in"],
        ["slateblue thread", "94.3 m", "1 spool"],
    ]


def test_bobbins_are_changed_before_or_within_a_hooping() -> None:
    lines = [one.text for one in read_html(supplies.bobbin_changes(DATA)) if one.name == "li"]
    assert lines == [
        "wheat: before quilt, hooping 9",
        "wheat: in quilt, hooping 17, after about stitch 1,250",
    ]


def test_evenings_say_from_where_to_where_and_how_long() -> None:
    assert _rows(read_html(supplies.sessions_section(DATA))) == [
        ["evening 1", "pocket, hooping 1 to quilt, hooping 3", "7 hoopings", "2 h 1 min"],
        ["evening 2", "quilt, hooping 4", "1 hooping", "2 h 30 min, longer than the evening"],
    ]


def test_folding_is_told_step_by_step() -> None:
    steps = [one.text for one in read_html(supplies.folding_section(DATA)) if one.name == "li"]
    assert steps == ["Fold the left third over", "Fold the right third over"]


@pytest.mark.parametrize(
    "data",
    [
        {},
        {"buying": None, "folding": None, "sessions": []},
        {
            "buying": {
                "cloth": [],
                "batting": None,
                "thread": [],
                "bobbins": [{"colour": "#000000", "changes": []}],
            }
        },
    ],
)
def test_what_is_not_in_the_data_is_left_out(data: supplies.Data) -> None:
    assert supplies.buying_section(data, "mm") == ""
    assert supplies.bobbin_changes(data) == ""
    assert supplies.folding_section(data) == ""
    assert supplies.sessions_section(data) == ""
