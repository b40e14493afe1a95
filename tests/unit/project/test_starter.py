import re
import tomllib
from typing import Any

import numpy as np
import pytest

from stitchpath.errors import ProjectError
from stitchpath.model.drawing import Drawing
from stitchpath.project import read_project, starter_project
from stitchpath.project.fault import key_path
from stitchpath.project.keys import all_keys
from stitchpath.units import Unit
from tests.support.designs import stitched

UNITS: tuple[Unit, ...] = ("mm", "cm", "in")


@pytest.mark.parametrize("units", UNITS)
def test_starter_reads_back_in_its_unit(units: Unit) -> None:
    project = read_project(starter_project(units))
    assert project.units == units
    assert project.pocket is not None


def commented_keys(units: Unit) -> dict[str, str]:
    """Return the lines that stand behind a `#`, by key."""
    text = starter_project(units).partition("#[[quilt.design]]")[0]
    lines = re.findall(r"(?m)^#([a-z_]+ = .*)$", text)
    return {line.partition(" = ")[0]: line for line in lines}


@pytest.mark.parametrize("units", UNITS)
def test_every_key_of_the_model_is_written_out_or_a_comment(units: Unit) -> None:
    """Layouts read different keys; what the starter's own do not read stands behind a `#`."""
    data = tomllib.loads(starter_project(units))
    for path, _ in all_keys():
        if "quilting" in path and path[3:4] and path[3] in commented_keys(units):
            continue
        if "silence" in path or "design" in path:
            continue
        value: Any = data
        for part in path:
            assert isinstance(part, int) or part in value, key_path(path)
            value = value[part]


def test_commented_keys_are_those_that_some_layouts_alone_read() -> None:
    assert list(commented_keys("mm")) == [
        "area", "keep_out", "fit", "fit_limit", "gap", "count", "period", "amplitude", "seed",
        "text", "height", "svg", "width", "at", "repeat",
    ]  # fmt: skip


@pytest.mark.parametrize("units", UNITS)
@pytest.mark.parametrize("name", commented_keys("mm"))
def test_commented_key_is_a_value_of_its_kind(units: Unit, name: str) -> None:
    """Without its `#` a key is read; that most layouts have no use for it is another matter."""
    text = starter_project(units).replace(f"\n#{name} = ", f"\n{name} = ")
    drawing = Drawing(source="leaf.svg", strokes=(np.array([[0.0, 0.0], [1.0, 1.0]]),))
    assert codes_of(text, drawing) <= {"unused-key"}


@pytest.mark.parametrize("units", UNITS)
def test_commented_silence_is_read_without_its_marks(units: Unit) -> None:
    head, mark, tail = starter_project(units).partition("#[[checks.silence]]")
    text = head + re.sub(r"(?m)^#", "", mark + tail)
    (silence,) = read_project(text).checks.silence
    assert (silence.check, silence.reason) == ("close-quilting", "a stiff mat")


@pytest.mark.parametrize("units", UNITS)
def test_commented_design_is_read_without_its_marks(units: Unit) -> None:
    head, mark, tail = starter_project(units).partition("#[[quilt.design]]")
    block, rest = (mark + tail).split("\n\n", 1)
    text = head + re.sub(r"(?m)^#", "", block) + "\n\n" + rest
    (design,) = read_project(text, load_design=lambda name: stitched(source=name)).quilt.design
    assert (design.file.source, design.angle) == ("heron.exp", 0)


def codes_of(text: str, drawing: Drawing) -> set[str]:
    try:
        read_project(text, load=lambda _: drawing)
    except ProjectError as error:
        return {problem.code for problem in error.problems}
    return set()


@pytest.mark.parametrize("units", UNITS)
def test_every_key_has_a_comment_and_lines_fit_a_page(units: Unit) -> None:
    lines = starter_project(units).splitlines()
    assert max(map(len, lines)) <= 96
    for number, line in enumerate(lines):
        if line and line[0] not in "#[":
            assert "# " in line or lines[number - 1].startswith("# "), line


@pytest.mark.parametrize("units", UNITS)
def test_folded_throw_goes_into_its_pocket(units: Unit) -> None:
    """Thirds across, quarters along, twelve layers (common practice, no source).

    Round a block of width w and height h the two faces of a pocket have to go all the way, so
    that w + h is at most the width inside the seam (geometry, no source).
    """
    project = read_project(starter_project(units))
    assert project.pocket is not None
    quilt, pocket = project.quilt, project.pocket
    stack = 12 * project.batting.thickness
    inside = pocket.width - 2 * pocket.seam.inset
    assert quilt.width / 3 + stack < inside
    assert quilt.length / 4 + stack < pocket.length - pocket.seam.inset
    assert inside < 1.2 * (quilt.width / 3 + stack)  # and is no sack


@pytest.mark.parametrize("units", UNITS)
def test_spacing_keeps_to_the_batting(units: Unit) -> None:
    project = read_project(starter_project(units))
    assert project.pocket is not None
    for quilting in (*project.quilt.quilting, *project.pocket.quilting):
        assert quilting.spacing <= project.batting.quilting_distance
