from typing import Final

import numpy as np
import pytest

from stitchpath.errors import Problem, ProjectError, Span
from stitchpath.model.drawing import Drawing
from stitchpath.project import decode_project, read_project
from stitchpath.project.read import MOST_DRAWINGS

SMALL: Final = "[quilt]\nwidth = 1050\nlength = 1400\n"

FULL: Final = """
name = "Cedar Point cushion throw"
units = "in"                    # what a bare number means: "mm", "cm" or "in"
[quilt]
width = 44                      # finished
length = 58
edge = "turned"
seam_allowance = "1/4 in"
edge_stitch = "5/16 in"
[[quilt.quilting]]
layout = "crosshatch"
spacing = "3 1/2"
start = "centre"
angle = 0
margin = 0
stitch_length = "2.8 mm"
thread = { top = "teal", bobbin = "linen" }
[pocket]
width = 16
length = 16
raise = "3/8 in"
mouth_stitch = "5/16 in"
[[pocket.quilting]]
layout = "diagonal"
spacing = "1 3/4"
[pocket.seam]
inset = "3/16 in"
corner_side = "7/8 in"
corner_across = "1/2 in"
passes = 3
stitch_length = "2.5 mm"
thread = { top = "linen", bobbin = "teal" }
[batting]
quilting_distance = 6
thickness = "3 mm"
shrinkage = "3 %"
[fabric]
usable_width = 40
shrinkage = "3 %"
[machine]
field = ["200 mm", "300 mm"]
formats = ["dst", "exp"]
speed = 650
cuts_thread = true
throat = ["9 in", "5 in"]
bobbin = "L"
longest_stitch = "7 mm"
shortest_stitch = "1 mm"
bobbin_pull_up = "seam"
[hoopings]
overlap = "6 mm"
turn = true
"""


def problems_of(text: str) -> tuple[Problem, ...]:
    with pytest.raises(ProjectError) as caught:
        read_project(text)
    return caught.value.problems


def test_every_key_reaches_the_project_in_mm() -> None:
    project = read_project(FULL)
    quilt, pocket, machine = project.quilt, project.pocket, project.machine
    assert project.name == "Cedar Point cushion throw"
    assert (quilt.width, quilt.length) == pytest.approx((44 * 25.4, 58 * 25.4))
    assert (quilt.seam_allowance, quilt.edge_stitch) == (6.35, 7.9375)
    assert quilt.quilting[0].spacing == pytest.approx(88.9)
    assert quilt.quilting[0].thread.bobbin == "#faf0e6"
    assert pocket is not None
    assert (pocket.raise_, pocket.mouth_stitch) == (9.525, 7.9375)
    assert (pocket.seam.corner_side, pocket.seam.corner_across) == (22.225, 12.7)
    assert project.batting.quilting_distance == pytest.approx(152.4)
    assert (project.batting.shrinkage, project.fabric.shrinkage) == (0.03, 0.03)
    assert (machine.field, machine.formats) == ((200.0, 300.0), ("dst", "exp"))
    assert machine.throat == pytest.approx((228.6, 127.0))
    assert (project.hoopings.overlap, project.hoopings.turn) == (6.0, True)


def test_only_the_quilts_size_is_needed() -> None:
    project = read_project(SMALL)
    assert project.pocket is None
    assert project.quilt.quilting[0].layout == "crosshatch"


def test_byte_order_mark_and_windows_line_ends_change_nothing() -> None:
    assert read_project("\ufeff" + FULL.replace("\n", "\r\n")) == read_project(FULL)


def test_places_are_the_same_with_windows_line_ends() -> None:
    text = "\ufeff" + (SMALL + "edge = 'x'\n").replace("\n", "\r\n")
    assert problems_of(text) == problems_of(SMALL + "edge = 'x'\n")
    assert problems_of(text)[0].span == Span(line=4, column=8, width=3)


def test_problems_come_in_the_order_of_their_places_and_unplaced_ones_last() -> None:
    text = "[machine]\nspeed = 1\nbobbin = 'q'\nfield = 3\n[batting]\nthickness = 0\n"
    found = problems_of(text)
    assert [problem.key for problem in found] == [
        "machine.speed",
        "machine.bobbin",
        "machine.field",
        "batting.thickness",
        "quilt",
    ]
    assert found[-1].span is None


def test_unknown_names_are_found_along_with_other_faults() -> None:
    text = "[quilt]\nwidth = 0\nlength = 1400\n[[quilt.quilting]]\nlayout = 'wavy'\n"
    assert [problem.code for problem in problems_of(text)] == ["out-of-range", "not-a-choice"]


def test_unknown_unit_is_one_problem_and_lengths_are_then_in_mm() -> None:
    assert [p.key for p in problems_of("units = 'ell'\n" + SMALL)] == ["units"]
    assert [p.key for p in problems_of("units = ['in']\n" + SMALL)] == ["units"]


def test_alias_is_the_only_name_of_a_key() -> None:
    found = problems_of(SMALL + "[pocket]\nraise_ = 4\n")
    assert [(p.code, p.help) for p in found] == [("unknown-key", "the nearest key is `raise`")]


def test_rule_about_a_default_points_at_its_table_and_says_so() -> None:
    text = SMALL + "[machine]\nlongest_stitch = 2.6\n[[quilt.quilting]]\nspacing = 50\n"
    (problem,) = problems_of(text)
    assert problem.key == "quilt.quilting[0].stitch_length"
    assert problem.span == Span(line=6, column=1, width=18)
    assert '`stitch_length` is not given; its default is "2.8 mm"' in problem.notes


def test_default_named_is_that_of_the_pocket() -> None:
    (problem,) = problems_of(
        "[quilt]\nwidth = 9000\nlength = 9000\nquilting = []\nedge_stitch = 0\n"
        "[pocket]\nwidth = 9000\nlength = 8900\n[machine]\nfield = [2000, 2000]\n"
        "longest_stitch = 2.7\n"
    )
    assert problem.code == "stitch-out-of-range"
    assert problem.key == "pocket.quilting[0].stitch_length"


def test_more_problems_than_can_be_read_are_counted() -> None:
    found = problems_of(SMALL + "".join(f"k{number} = 1\n" for number in range(1500)))
    assert len(found) == 101
    assert found[-1].code == "more-problems"
    assert found[-1].message == "the file has 1,400 more problems"


def test_text_over_the_limit_is_refused() -> None:
    (problem,) = problems_of("#" * 1_000_001)
    assert problem.code == "too-big"
    assert "1,000,000 (1 MB)" in problem.label


def test_bytes_are_decoded_with_or_without_a_mark() -> None:
    assert decode_project("name = 'é'".encode()) == "name = 'é'"
    assert decode_project("name = 'é'".encode("utf-8-sig")) == "name = 'é'"


@pytest.mark.parametrize(
    ("data", "line", "column"),
    [
        ("a = 'ok'\nn = 'Café'".encode("latin-1"), 2, 9),
        ("é = '".encode() + b"\xff", 1, 6),
        ("name".encode("utf-16"), 1, 1),
    ],
)
def test_bytes_that_are_no_utf_8_are_told_with_their_place(
    data: bytes, line: int, column: int
) -> None:
    with pytest.raises(ProjectError) as caught:
        decode_project(data)
    (problem,) = caught.value.problems
    assert (problem.code, problem.span) == ("not-utf-8", Span(line=line, column=column))


def test_too_many_bytes_are_refused() -> None:
    with pytest.raises(ProjectError, match="1,000,001 bytes"):
        decode_project(b"#" * 1_000_001)


@pytest.mark.parametrize(
    ("number", "said"),
    [("9" * 400, "above the largest"), ("-" + "9" * 400, "below the smallest")],
)
def test_number_with_hundreds_of_digits_is_out_of_range(number: str, said: str) -> None:
    (problem,) = problems_of(f"{SMALL}[machine]\nspeed = {number}\n")
    assert problem.code == "out-of-range"
    assert said in problem.message
    assert len(problem.message) < 120


SHAPES = "[[quilt.quilting]]\nkeep_out = [{}]\n"


def square(name: str) -> Drawing:
    ring = np.array([[0.0, 0], [40, 0], [40, 40], [0, 0]])
    return Drawing(source=name, strokes=(ring,))


def test_each_drawing_is_loaded_once_and_placed_everywhere() -> None:
    asked: list[str] = []

    def load(name: str) -> Drawing:
        asked.append(name)
        return square(name)

    shapes = '{ svg = "a.svg" }, { svg = "b.svg", at = [90, 90] }, { svg = "a.svg", width = 9 }'
    project = read_project(SMALL + SHAPES.replace("{}", shapes), load=load)
    assert asked == ["a.svg", "b.svg"]
    first, second, third = project.quilt.quilting[0].keep_out
    assert first.svg is third.svg
    assert (second.at, third.width) == ((90.0, 90.0), 9.0)


def test_drawing_that_cannot_be_loaded_is_a_problem_at_each_place() -> None:
    asked: list[str] = []

    def load(name: str) -> Drawing:
        asked.append(name)
        raise ValueError("the file is torn")

    text = SMALL + SHAPES.replace("{}", '{ svg = "a.svg" }, { svg = "a.svg" }')
    with pytest.raises(ProjectError) as caught:
        read_project(text, load=load)
    problems = caught.value.problems
    assert asked == ["a.svg"]
    assert [problem.key for problem in problems] == [
        "quilt.quilting[0].keep_out[0].svg",
        "quilt.quilting[0].keep_out[1].svg",
    ]
    assert problems[0].span == Span(line=5, column=21, width=7)
    assert problems[0].notes == ("the file is torn",)


def test_project_has_a_limited_number_of_drawings() -> None:
    shapes = ", ".join(f'{{ svg = "{n}.svg" }}' for n in range(MOST_DRAWINGS + 1))
    with pytest.raises(ProjectError) as caught:
        read_project(SMALL + SHAPES.replace("{}", shapes), load=square)
    (problem,) = caught.value.problems
    assert problem.notes == (f"a project has at most {MOST_DRAWINGS} drawings",)


def test_text_that_is_too_long_is_told_with_its_length() -> None:
    text = f'[[quilt.quilting]]\nlayout = "text"\ntext = "{"a" * 201}"\n'
    (problem,) = problems_of(SMALL + text)
    assert problem.code == "wrong-count"
    assert "has 201 characters" in problem.message
    assert problem.label == "must be text of at most 200 characters"


def test_text_on_an_area_outside_the_piece_is_one_problem() -> None:
    area = "area = { rectangle = [2000, 0, 90, 90] }"
    text = f'[[quilt.quilting]]\nlayout = "text"\ntext = "a"\n{area}\n'
    assert [problem.code for problem in problems_of(SMALL + text)] == ["area-outside"]
