"""The picture of a stage."""

from dataclasses import replace
from xml.etree import ElementTree as ET

import numpy as np
import pytest
from hypothesis import given, settings
from svgwrite.validator2 import get_validator

from stitchpath.model.plan import Figures, Stage
from stitchpath.model.project import Project
from stitchpath.model.stitches import Run
from stitchpath.pipeline import plan
from stitchpath.preview import draw_hooping, draw_stage, stage_picture
from stitchpath.preview.colours import CLOTH, HOOP, INK
from tests.strategies import projects
from tests.support.plans import LENGTH, WIDTH, quilt_stage, small_plan
from tests.support.svg_reader import ELEMENTS, SVG, layer, path_in, polylines, texts

PLAN = small_plan()
QUILT, SEAM = PLAN.stages
LAYERS = (
    "page piece pocket design fields order thread needle-points moves direction ends starts "
    "pauses field-numbers placement placement-bars placement-names run-numbers findings title "
    "legend notes scale"
)


def every_picture() -> list[str]:
    stages = [draw_stage(PLAN, stage) for stage in PLAN.stages]
    return stages + [
        draw_hooping(PLAN, stage, one) for stage in PLAN.stages for one in stage.hoopings
    ]


@pytest.mark.parametrize("svg", every_picture())
def test_a_picture_is_svg_1_1_and_nothing_else(svg: str) -> None:
    root = ET.fromstring(svg.encode())  # noqa: S314 - our own text
    assert root.get("version") == "1.1"
    # Source of elements: see ELEMENTS; of attributes and their values: svgwrite's own tables of
    # SVG 1.1 Full.
    known = get_validator("full", debug=True)
    for element in root.iter():
        name = element.tag.removeprefix(SVG)
        assert name in ELEMENTS
        attributes = {key: value for key, value in element.attrib.items() if "{" not in key}
        known.check_all_svg_attribute_values(name, attributes)


@pytest.mark.parametrize("svg", every_picture())
def test_a_picture_needs_no_script_and_no_second_file(svg: str) -> None:
    for word in ("<script", "foreignObject", "href=", "url(", "<style", "var(", "<image"):
        assert word not in svg


@pytest.mark.parametrize("svg", every_picture())
def test_a_picture_is_at_true_scale(svg: str) -> None:
    root = ET.fromstring(svg.encode())  # noqa: S314 - our own text
    _, _, width, height = (root.get("viewBox") or "").split()
    assert (root.get("width"), root.get("height")) == (f"{width}mm", f"{height}mm")


@pytest.mark.parametrize("svg", every_picture())
def test_every_text_lies_on_the_page(svg: str) -> None:
    root = ET.fromstring(svg.encode())  # noqa: S314 - our own text
    x, y, width, height = map(float, (root.get("viewBox") or "").split())
    for block in root.iter(f"{SVG}g"):
        for text in block.findall(f"{SVG}text"):
            if block.get("text-anchor") == "middle":
                assert x < float(text.get("x", "")) < x + width
                assert y < float(text.get("y", "")) < y + height


def test_each_layer_is_there_with_a_title_for_readers() -> None:
    svg = draw_stage(PLAN, QUILT)
    for name in LAYERS.split():
        title = layer(svg, name).find(f"{SVG}title")
        assert title is not None
        assert title.text


def test_the_thread_is_every_stitch_of_the_stage() -> None:
    drawn = path_in(draw_stage(PLAN, QUILT), "thread", stroke=QUILT.thread.top)
    sewn = np.concatenate([one.stitches.needle_points for one in QUILT.hoopings])
    assert np.abs(np.concatenate(drawn) - sewn).max() <= 0.05 + 1e-9
    # four hoopings of four runs each, one of them with a hop
    assert len(drawn) == 4 * 5


def test_needle_points_are_all_there() -> None:
    dots = path_in(draw_stage(PLAN, QUILT), "needle-points", stroke=INK)
    sewn = np.concatenate([one.stitches.needle_points for one in QUILT.hoopings])
    assert np.abs(np.array([dot[0] for dot in dots]) - sewn).max() <= 0.05 + 1e-9


def test_starts_ends_and_cuts_stand_at_the_runs() -> None:
    svg = draw_stage(PLAN, SEAM)
    starts = np.array([dot[0] for dot in path_in(svg, "starts", stroke=INK)])
    assert starts == pytest.approx(np.array([[110, 340], [250, 340]]))
    squares, slashes = layer(svg, "ends").findall(f"{SVG}path")[1:]
    assert (squares.get("d") or "").count("m") == 2
    assert (slashes.get("d") or "").count("m") == 2
    assert layer(svg, "pauses").findall(f"{SVG}path")


def test_the_order_has_a_colour_for_each_step() -> None:
    steps = layer(draw_stage(PLAN, QUILT), "order").findall(f"{SVG}g")
    colours = [path.get("stroke") for step in steps for path in step.findall(f"{SVG}path")]
    assert len(colours) == len(set(colours)) == 8


def test_the_first_and_the_last_run_have_numbers() -> None:
    numbers = texts(draw_stage(PLAN, QUILT), "run-numbers")
    assert numbers[:2] == ["1", "4"]
    assert len(numbers) > 8


def test_fields_and_placement_marks_carry_their_names() -> None:
    svg = draw_stage(PLAN, QUILT)
    assert texts(svg, "field-numbers") == ["1", "2", "3", "4"]
    assert texts(svg, "placement-names") == ["A", "B", "C", "D"]
    corners = path_in(svg, "fields", stroke=HOOP)
    assert corners[0].min(axis=0) == pytest.approx([-10, -10])


def test_a_mark_that_hoopings_share_is_there_once() -> None:
    """The first mark of all four hoopings is one place, as on a real piece."""
    shared = QUILT.hoopings[0].hooping.marks
    hoopings = tuple(
        replace(sewn, hooping=replace(sewn.hooping, marks=shared)) for sewn in QUILT.hoopings
    )
    svg = draw_stage(PLAN, replace(QUILT, hoopings=hoopings))
    assert texts(svg, "placement-names") == ["A"]
    assert len(polylines(layer(svg, "placement").findall(f"{SVG}path")[0])) == 1


def test_title_and_scale_speak_the_projects_unit() -> None:
    svg = draw_stage(PLAN, QUILT)
    title = texts(svg, "title")
    assert title[0] == "Larch Lane picnic rug"
    assert "14 3/16 in x 18 7/8 in" in title[1]
    assert texts(svg, "scale") == ["3 in = 76.2 mm"]


def test_the_legend_explains_what_is_there_and_nothing_else() -> None:
    quilt = " ".join(texts(draw_stage(PLAN, QUILT), "legend"))
    seam = " ".join(texts(draw_stage(PLAN, SEAM), "legend"))
    for words in ("finished edge", "edge of the pocket", "designed line", "thread cut"):
        assert words in quilt
    assert "pause" in seam
    assert "pause" not in quilt
    assert "thread uncut" in quilt
    assert "thread uncut" not in seam


def test_what_is_sewn_twice_has_ticks_and_the_legend_says_so() -> None:
    assert "sewn twice" not in " ".join(texts(draw_stage(PLAN, QUILT), "legend"))
    (first, *others) = QUILT.hoopings
    line = first.runs[0].lines[0]
    twice = Run(lines=(line, replace(line, points=line.points[::-1], again=True)))
    stage = replace(QUILT, hoopings=(replace(first, runs=(twice,)), *others))
    for svg in (draw_stage(PLAN, stage), draw_hooping(PLAN, stage, stage.hoopings[0])):
        assert "sewn twice" in " ".join(texts(svg, "legend"))
        ticks, *_ = layer(svg, "thread").findall(f"{SVG}path")
        assert ticks.get("stroke") == INK
        assert ticks.get("stroke-dasharray")


def test_a_large_stage_leaves_needle_points_to_the_hoopings_and_says_so(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(stage_picture, "MOST_NEEDLE_POINTS", 100)
    svg = draw_stage(PLAN, QUILT)
    assert 'id="needle-points"' not in svg
    assert "needle points are in the" in " ".join(texts(svg, "legend"))


def test_a_stage_of_many_runs_numbers_the_ends_of_its_hoopings_and_says_so(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(stage_picture, "MOST_NUMBERED_RUNS", 10)
    svg = draw_stage(PLAN, QUILT)
    assert set(texts(svg, "run-numbers")) == {"1", "4"}
    assert "a hooping's first and last" in " ".join(texts(svg, "legend"))


def test_the_same_plan_gives_the_same_picture() -> None:
    assert draw_stage(PLAN, QUILT) == draw_stage(small_plan(), quilt_stage("#2a6f77"))


def test_a_stage_with_nothing_sewn_is_a_picture_of_the_piece() -> None:
    empty = Stage(
        name="quilt",
        piece=replace(QUILT.piece, outline=QUILT.piece.outline[:-1], shadow=None),
        thread=QUILT.thread,
        thickness_mm=3,
        lines=(),
        hoopings=(),
        figures=Figures(),
        bobbins=0,
    )
    svg = draw_stage(replace(PLAN, findings=()), empty)
    (outline,) = path_in(svg, "piece", stroke=INK)
    assert outline[0].tolist() == outline[-1].tolist() == [0, 0]
    assert outline.max(axis=0).tolist() == [WIDTH, LENGTH]
    assert texts(svg, "legend") == ["finished edge of the piece"]


@pytest.mark.parametrize(
    "name", ["<b>Émile & Söhne</b> ]]>", "縫い物 \U0001f9f5", 'a "quoted" rug']
)
def test_a_name_is_text_whatever_it_looks_like(name: str) -> None:
    svg = draw_stage(small_plan(name), QUILT)
    assert "".join(texts(svg, "title")[:1]) == name


def test_a_pale_thread_lies_on_dark() -> None:
    pale = draw_stage(small_plan(thread="#fffaf0"), quilt_stage("#fffaf0"))
    strokes = {path.get("stroke") for path in layer(pale, "thread").findall(f"{SVG}path")}
    assert "#fffaf0" in strokes
    assert CLOTH not in strokes


@settings(max_examples=15, deadline=None)
@given(projects())
def test_any_plan_can_be_drawn_stitch_by_stitch(project: Project) -> None:
    made = plan(project)
    for stage in made.stages:
        svg = draw_stage(made, stage)
        sewn = np.concatenate([one.stitches.needle_points for one in stage.hoopings])
        drawn = path_in(svg, "thread", stroke=stage.thread.top)
        assert np.abs(np.concatenate(drawn) - sewn).max() <= 0.05 + 1e-9
        ET.fromstring(draw_hooping(made, stage, stage.hoopings[-1]).encode())  # noqa: S314
