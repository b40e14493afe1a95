"""Our own SVG taken apart."""

import pytest

from stitchpath.preview import draw_hooping, draw_stage
from stitchpath.preview.svg_parts import path_lines, svg_parts
from tests.support.plans import small_plan


def test_path_goes_on_from_where_a_closed_one_began() -> None:
    # Source: SVG 1.1 second edition, 8.3.3: after `z` the next subpath starts at its start.
    assert list(path_lines("m1 2 10 0 0 10zm5 5h0")) == [
        ([(1, 2), (11, 2), (11, 12)], True),
        ([(6, 7), (6, 7)], False),
    ]


def test_groups_hand_down_their_look_and_their_frame() -> None:
    svg = (
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="1 2 30 40"><title>x</title>'
        '<g transform="translate(5,6)" fill="#111111"><g transform="scale(2)">'
        '<path d="m0 0 1 1" transform="scale(0.1)" fill="none"/></g>'
        '<text x="1" y="2">words</text></g></svg>'
    )
    picture = svg_parts(svg)
    path, text = picture.parts
    assert picture.box == (1.0, 2.0, 30.0, 40.0)
    assert [part.shift for part in picture.parts] == [(5.0, 6.0), (5.0, 6.0)]
    assert path.scale == pytest.approx(0.2)
    assert path.look["fill"] == "none"
    assert text.scale == 1
    assert text.look["fill"] == "#111111"
    assert text.text == "words"


def test_every_path_and_text_of_a_picture_is_found() -> None:
    plan = small_plan()
    stage = plan.stages[1]
    for svg in (draw_stage(plan, stage), draw_hooping(plan, stage, stage.hoopings[0])):
        parts = svg_parts(svg).parts
        found = [sum(part.element == name for part in parts) for name in ("path", "text")]
        assert found == [svg.count("<path "), svg.count("<text ")]
