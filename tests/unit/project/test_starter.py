import tomllib
from typing import Any

import pytest

from stitchpath.project import read_project, starter_project
from stitchpath.project.fault import key_path
from stitchpath.project.keys import all_keys
from stitchpath.units import Unit

UNITS: tuple[Unit, ...] = ("mm", "cm", "in")


@pytest.mark.parametrize("units", UNITS)
def test_starter_reads_back_in_its_unit(units: Unit) -> None:
    project = read_project(starter_project(units))
    assert project.units == units
    assert project.pocket is not None


@pytest.mark.parametrize("units", UNITS)
def test_every_key_of_the_model_is_written_out(units: Unit) -> None:
    data = tomllib.loads(starter_project(units))
    for path, _ in all_keys():
        value: Any = data
        for part in path:
            assert isinstance(part, int) or part in value, key_path(path)
            value = value[part]


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
