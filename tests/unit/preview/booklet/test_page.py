"""The booklet as a document."""

import base64
import hashlib
import json
import re
from dataclasses import replace

import pytest

from stitchpath.model.estimate import Bobbins, Cloth, Estimate, LaidPiece
from stitchpath.model.finding import Finding, Level
from stitchpath.model.plan import Basting, Plan
from stitchpath.preview.booklet import draw_booklet
from stitchpath.preview.colours import NIGHT, contrast
from tests.support.booklets import CAUTIONS, HOSTILE, cautious, files_of, hostile_plan
from tests.support.html_reader import Element, read_html
from tests.support.plans import small_plan


def _read(plan: Plan) -> list[Element]:
    return read_html(draw_booklet(cautious(plan), files_of(plan)))


def _texts(elements: list[Element], name: str) -> list[str]:
    return [element.text for element in elements if element.name == name]


@pytest.mark.parametrize("plan", [small_plan(), hostile_plan()], ids=["small", "hostile"])
def test_ids_are_unique_and_every_link_leads_to_one(plan: Plan) -> None:
    elements = _read(plan)
    ids = [one.attributes["id"] for one in elements if "id" in one.attributes]
    assert len(set(ids)) == len(ids)
    links = [one.attributes["href"] or "" for one in elements if "href" in one.attributes]
    assert len(links) > 10
    assert {link.removeprefix("#") for link in links} <= set(ids)
    for attribute in ("aria-labelledby", "aria-describedby", "for"):
        named = {one.attributes[attribute] for one in elements if attribute in one.attributes}
        assert named <= set(ids)


def test_every_hooping_has_a_page_a_link_in_the_picture_and_a_step() -> None:
    plan = small_plan()
    elements = _read(plan)
    names = {
        f"{stage.name}-{n}" for stage in plan.stages for n in range(1, len(stage.hoopings) + 1)
    }
    pages = [one for one in elements if one.name == "article"]
    assert {one.attributes["id"] for one in pages} == names
    links = [one.attributes["href"] for one in elements if one.name == "a"]
    assert all(links.count(f"#{name}") == 2 for name in names)
    ticks = [one.attributes["data-tick"] for one in elements if "data-tick" in one.attributes]
    assert all(ticks.count(name) == 2 for name in names)


def test_page_of_a_hooping_says_what_the_plan_says() -> None:
    (page,) = (one for one in _read(small_plan()) if one.attributes.get("id") == "seam-1")
    assert "seam/01.dst" in page.text
    assert "200 mm x 260 mm, upright" in page.text
    # mark A lies at 95 mm, 290 mm: 3 3/4 in and 11 7/16 in; in the field at -85, -110
    for cell in ("3 3/4 in", "11 7/16 in", "-85.0, -110.0"):
        assert cell in page.text


def test_page_forbids_everything_but_its_own_style_and_script() -> None:
    # Source: Content Security Policy Level 3 (W3C), 8.4: hashes of inline elements.
    text = draw_booklet(small_plan(), {})
    (policy,) = re.findall(r'Content-Security-Policy" content="([^"]*)"', text)
    rules = dict(rule.split(maxsplit=1) for rule in policy.replace("&#x27;", "'").split("; "))
    assert rules["default-src"] == "'none'"
    for name, pattern in (
        ("style-src", r"<style>(.*?)</style>"),
        ("script-src", r"<script>(.*?)</script>"),
    ):
        (inside,) = re.findall(pattern, text, re.DOTALL)
        digest = base64.b64encode(hashlib.sha256(inside.encode()).digest()).decode()
        assert rules[name] == f"'sha256-{digest}'"
    assert not re.search(r"<[^>]+ (style|on\w+)=", text)  # what the policy would not let run
    assert not re.search(r'(src|href)="(?!#)', text)


def test_texts_of_the_maker_are_text_and_nothing_else() -> None:
    plan = hostile_plan()
    text = draw_booklet(cautious(plan, (*CAUTIONS, HOSTILE)), files_of(plan))
    elements = read_html(text)
    assert _texts(elements, "h1") == [HOSTILE]
    assert len(_texts(elements, "script")) == len(
        _texts(read_html(draw_booklet(small_plan(), {})), "script")
    )
    assert text.count("<script>alert") == 0
    assert sum(HOSTILE in one for one in _texts(elements, "li")) == 2  # a caution, a finding
    assert HOSTILE in _texts(elements, "th")


def test_same_plan_gives_the_same_bytes_and_another_plan_another_key() -> None:
    plan = small_plan()
    assert draw_booklet(plan, {}) == draw_booklet(small_plan(), {})
    keys = {
        re.findall(r'data-key="(\w+)"', draw_booklet(one, {}))[0]
        for one in (plan, small_plan("Another"), replace(plan, stages=plan.stages[:1]))
    }
    assert len(keys) == 3


def test_what_there_is_nothing_of_is_left_out() -> None:
    plan = replace(small_plan(), cutting=(), findings=())
    ids = {one.attributes.get("id") for one in read_html(draw_booklet(plan, {}))}
    assert not ids & {"cutting", "safety"}
    assert "The checks found nothing to say." in draw_booklet(plan, {})


def test_findings_that_are_cautions_are_told_with_the_cautions() -> None:
    caution = Finding(code="cautions", level=Level.NOTE, text="mind the ring")
    plan = replace(small_plan(), findings=(*small_plan().findings, caution))
    elements = _read(plan)
    (safety,) = (one for one in elements if one.attributes.get("id") == "safety")
    (findings,) = (one for one in elements if one.attributes.get("id") == "findings")
    assert "Mind the ring." in safety.text
    assert "ring" not in findings.text


def test_contents_lead_to_every_section_in_order() -> None:
    elements = _read(small_plan())
    sections = [one.attributes["id"] for one in elements if one.name == "section"]
    start = next(at for at, one in enumerate(elements) if one.name == "nav")
    links = [one.attributes["href"] for one in elements[start:] if one.name == "a"]
    assert links[: len(sections)] == [f"#{name}" for name in sections]


@pytest.mark.parametrize(("data", "word"), [({}, "not"), ({"draw_in": {}}, "too")])
def test_cutting_says_whether_quilting_is_counted_in(
    data: dict[str, object], word: str
) -> None:
    text = draw_booklet(small_plan(), {}, data)
    assert f"what quilting itself draws in is {word}." in text


@pytest.mark.parametrize(
    ("part", "told"), [("quilt top", False), ("quilt top, panel 1 of 2", True)]
)
def test_cutting_points_to_the_list_where_a_piece_is_cut_in_panels(
    part: str, told: bool
) -> None:
    piece = LaidPiece(what=part, x=0.0, y=0.0, width=180.0, length=490.0)
    cloth = Cloth(name="top", usable_width=200.0, length=500.0, buy=500.0, pieces=(piece,))
    plan = replace(small_plan(), estimate=Estimate(cloths=(cloth,)))
    assert ("cutting-list.txt says how" in draw_booklet(plan, {})) == told


def test_bobbins_are_wound_once_for_all_stages_and_never_by_the_stage() -> None:
    plan = small_plan()  # both stages have linen in the bobbin
    wound = Bobbins(colour="#faf0e6", count=2, changes=(), left_mm=0.0, full_mm=36e3)
    elements = _read(replace(plan, estimate=Estimate(bobbins=(wound,))))
    told = [text for text in _texts(elements, "label") if "obbin" in text]
    assert told[0] == "Wind 2 L bobbins with linen"
    assert len(told) == 1 + len(plan.stages)
    assert all(text.endswith("; put in a bobbin of linen") for text in told[1:])
    assert "2 L bobbins with linen" in _texts(elements, "li")
    assert "2 L" in _texts(elements, "dd")


def test_finding_that_is_silenced_says_why() -> None:
    said = replace(small_plan().findings[1], silenced="a sampler, never washed")
    text = draw_booklet(replace(small_plan(), findings=(said,)), {})
    assert "Silenced: a sampler, never washed" in text


def test_finding_with_a_place_is_drawn_with_its_number_and_a_note_is_not() -> None:
    plan = small_plan()  # a warning at a place on the quilt, and a note without one
    elements = _read(plan)
    drawn = [one.text for one in elements if one.attributes.get("class") == "finding-number"]
    assert drawn == ["1"]


def test_data_of_the_player_adds_up_to_the_plan() -> None:
    plan = small_plan()
    (script,) = (one for one in _read(plan) if one.attributes.get("id") == "plan")
    data = json.loads(script.text)
    for told, stage in zip(data["stages"], plan.stages, strict=True):
        assert told["name"] == stage.name
        counts = [hooping["count"] for hooping in told["hoopings"]]
        assert counts == [sewn.figures.stitches for sewn in stage.hoopings]


def test_dark_colours_stand_out() -> None:
    # Source: Web Content Accessibility Guidelines 2.2 (W3C), success criteria 1.4.3 and 1.4.11.
    for ground in ("page", "cloth"):
        for text in ("ink", "soft", "hoop"):
            assert contrast(NIGHT[text], NIGHT[ground]) >= 4.5
        assert contrast(NIGHT["design"], NIGHT[ground]) >= 3


def test_what_a_hooping_bastes_is_told_with_it() -> None:
    plan = small_plan()
    quilt = plan.stages[0]
    first = replace(quilt.hoopings[0], basting=Basting(marks=("A",), box=True, stitches=9))
    basted = replace(quilt, hoopings=(first, *quilt.hoopings[1:]))
    text = draw_booklet(replace(plan, stages=(basted, *plan.stages[1:])), {})
    assert text.count("basted first, and taken out when the quilt is done") == 1


@pytest.mark.parametrize(
    ("sew_marks", "told"), [(False, "the 4 placement marks"), (True, "the 1 placement mark;")]
)
def test_marks_to_draw_are_counted_once_and_those_that_are_sewn_not_at_all(
    sew_marks: bool,
    told: str,
) -> None:
    plan = small_plan()
    quilt = plan.stages[0]
    hoopings = tuple(
        replace(sewn, hooping=replace(sewn.hooping, marks=(replace(mark, name=name),)))
        for sewn, name in zip(quilt.hoopings, "ABCD", strict=True)
        for mark in sewn.hooping.marks
    )
    rules = replace(plan.project.hoopings, sew_marks=sew_marks)
    project = replace(plan.project, hoopings=rules)
    stages = (replace(quilt, hoopings=hoopings),)
    assert told in draw_booklet(replace(plan, project=project, stages=stages), {})
