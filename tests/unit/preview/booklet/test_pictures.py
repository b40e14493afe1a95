"""The booklet's pictures."""

from dataclasses import replace

import numpy as np
import pytest

from stitchpath.model.hooping import Join
from stitchpath.model.plan import Figures, SewnHooping
from stitchpath.model.stitches import Stitches
from stitchpath.preview.booklet.pictures import hooping_picture, stage_overview
from stitchpath.preview.booklet.stage_pages import stage_pages
from stitchpath.preview.labels import text_width
from tests.support.html_reader import Element, read_html
from tests.support.plans import FIELD, small_plan
from tests.support.svg_reader import parsed

PLAN = small_plan()
QUILT, SEAM = PLAN.stages


def _classed(elements: list[Element], name: str) -> list[Element]:
    return [one for one in elements if one.attributes.get("class") == name]


def _corners(element: Element) -> np.ndarray:
    pairs = (element.attributes["points"] or "").split()
    return np.array([[float(part) for part in pair.split(",")] for pair in pairs])


def test_overview_has_every_field_where_it_lies_with_its_number() -> None:
    elements = read_html(stage_overview(QUILT, [("7", (10.0, 20.0))]))
    fields = _classed(elements, "field")
    for field, sewn in zip(fields, QUILT.hoopings, strict=True):
        assert _corners(field) == pytest.approx(sewn.hooping.corners, abs=1e-3)
    assert [one.text for one in _classed(elements, "number")] == ["1", "2", "3", "4"]
    (triangle,) = _classed(elements, "finding")
    assert _corners(triangle).mean(axis=0) == pytest.approx([10.0, 20.0], abs=0.1)
    assert [one.text for one in _classed(elements, "finding-number")] == ["7"]


def test_hooping_shows_what_it_sews_in_its_own_frame() -> None:
    sewn = QUILT.hoopings[3]  # turned by half
    elements = read_html(hooping_picture(PLAN, QUILT, sewn))
    (sewing,) = _classed(elements, "sewing")
    drawn = parsed(sewing.attributes["d"] or "")
    lines = [line.points for run in sewn.runs for line in run.lines]
    assert len(drawn) == len(lines)
    for line, shown in zip(lines, drawn, strict=True):
        ends = sewn.hooping.to_field(line[[0, -1]])
        assert shown[[0, -1]] / 2 == pytest.approx(ends, abs=0.251)
    (field,) = _classed(elements, "field")
    assert np.ptp(_corners(field), axis=0) == pytest.approx(FIELD)


def test_piece_lies_under_a_field_as_the_field_lies_on_the_piece() -> None:
    # Source: SVG 1.1, 7.6: the last transform comes first; rotate is clockwise, with y down.
    sewn = QUILT.hoopings[3]
    (use,) = (one for one in read_html(hooping_picture(PLAN, QUILT, sewn)) if one.name == "use")
    x, y = sewn.hooping.centre
    assert use.attributes == {
        "href": "#ground-quilt",
        "transform": f"rotate(-180) translate({-x:g} {-y:g})",
    }


def test_disc_is_where_the_needle_starts_and_square_where_it_ends() -> None:
    (sewn,) = SEAM.hoopings
    elements = read_html(hooping_picture(PLAN, SEAM, sewn))
    points = sewn.hooping.to_field(sewn.stitches.needle_points)
    (disc,) = _classed(elements, "start")
    at = [float(disc.attributes[key] or "") for key in ("cx", "cy")]
    assert at == pytest.approx(points[0].tolist(), abs=1e-3)
    (square,) = _classed(elements, "end")
    assert _corners(square).mean(axis=0) == pytest.approx(points[-1], abs=1e-3)


@pytest.mark.parametrize(
    ("turn", "top"), [(0.0, (0, -1)), (90.0, (-1, 0)), (180.0, (0, 1)), (270.0, (1, 0))]
)
def test_top_of_the_piece_is_told_on_its_side_and_apart_from_the_throat(
    turn: float, top: tuple[int, int]
) -> None:
    # Geometry: the piece's top lies in the direction (0, -1), turned back into the field.
    (sewn,) = SEAM.hoopings
    turned = replace(sewn, hooping=replace(sewn.hooping, turn_deg=turn))
    words = _classed(read_html(hooping_picture(PLAN, SEAM, turned)), "side")
    places = {
        one.text: np.array([float(one.attributes[key] or "") for key in ("x", "y")])
        for one in words
    }
    place, throat = places["top of the quilt"], places["throat side"]
    axis = 0 if top[0] else 1
    assert np.sign(place[axis]) == top[axis]
    assert throat[0] > FIELD[0] / 2
    assert np.hypot(*(place - throat)) > FIELD[0] / 4


@pytest.mark.parametrize("field", [(100.0, 100.0), (200.0, 300.0), (400.0, 150.0)])
def test_words_of_a_hooping_can_be_read_on_a_telephone(field: tuple[float, float]) -> None:
    (sewn,) = SEAM.hoopings
    moved = replace(sewn, hooping=replace(sewn.hooping, field=field))
    svg, *elements = read_html(hooping_picture(PLAN, SEAM, moved))
    width = float((svg.attributes["viewbox"] or "").split()[2])
    sizes = [float(one.attributes["font-size"] or "") for one in elements if one.name == "text"]
    assert len(sizes) > 2
    assert min(sizes) * 320 / width >= 14  # pixels, docs/visual-language.md


def test_number_stands_beside_its_fields_head_however_fields_overlap() -> None:
    stage = replace(
        QUILT,
        hoopings=tuple(
            replace(one, hooping=replace(one.hooping, centre=(150.0, 150.0), turn_deg=turn))
            for one, turn in zip(QUILT.hoopings, (0.0, 90.0, 180.0, 270.0), strict=True)
        ),
    )
    elements = read_html(stage_overview(stage, ()))
    heads = [_corners(one).mean(axis=0) for one in _classed(elements, "top")]
    numbers = [
        np.array([float(one.attributes[key] or "") for key in ("x", "y")])
        for one in _classed(elements, "number")
    ]
    for at, number in enumerate(numbers):
        assert np.argmin([np.hypot(*(number - head)) for head in heads]) == at


def test_neighbours_numbers_stand_apart_from_each_other_and_from_names() -> None:
    sewn = QUILT.hoopings[0]
    places = [(float(x), 60.0) for x in range(20, 180, 5)]
    joins = tuple(
        Join(place=place, hoopings=(1, other), is_on_crossing=False)
        for place in places
        for other in (2, 3, 4)
    )
    elements = read_html(hooping_picture(PLAN, replace(QUILT, joins=joins), sewn))
    named = _classed(elements, "number")
    spots = np.array(
        [[float(one.attributes[key] or "") for key in ("x", "y")] for one in named]
    )
    size = float(named[0].attributes["font-size"] or "")
    apart = np.hypot(*(spots[:, None] - spots[None]).transpose(2, 0, 1))
    assert len(named) == len(sewn.hooping.marks) + 3
    assert apart[np.triu_indices(len(named), 1)].min() > 1.5 * size


def test_name_of_two_letters_stands_clear_of_its_cross() -> None:
    (sewn,) = SEAM.hoopings
    marks = tuple(replace(mark, name=f"A{mark.name}") for mark in sewn.hooping.marks)
    named = replace(sewn, hooping=replace(sewn.hooping, marks=marks))
    words = _classed(read_html(hooping_picture(PLAN, SEAM, named)), "number")
    for mark, one in zip(marks, words, strict=True):
        assert one.text == mark.name
        x, size = (float(one.attributes[key] or "") for key in ("x", "font-size"))
        assert abs(x - mark.field[0]) > text_width(mark.name, size) / 2


def test_hooping_without_needle_points_is_a_field_on_its_piece() -> None:
    nothing = Stitches(xy=np.empty((0, 2)), op=np.empty(0, np.uint8), tie=np.empty(0, np.bool_))
    empty: SewnHooping = replace(SEAM.hoopings[0], stitches=nothing, runs=(), figures=Figures())
    elements = read_html(hooping_picture(PLAN, SEAM, empty))
    assert not _classed(elements, "start")
    assert len(_classed(elements, "field")) == 1


def test_page_tells_threads_to_snip_and_no_marks_where_there_are_none() -> None:
    sewn = SEAM.hoopings[0]
    figures = replace(sewn.figures, snips=1, thread_cuts=0, pauses=0)
    plain = replace(sewn, figures=figures, hooping=replace(sewn.hooping, marks=()))
    stage = replace(SEAM, hoopings=(plain,))
    (page,) = (one for one in read_html(stage_pages(PLAN, stage, {})) if one.name == "article")
    assert "2 runs, 1 thread to snip by hand" in page.text
    assert "thread cut" not in page.text
    assert "needle can be lowered" not in page.text
