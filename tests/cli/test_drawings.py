"""Which files a project may draw on: those beside it or below it, and no others."""

import os
from pathlib import Path

import pytest

from stitchpath.cli.drawings import drawing_loader
from stitchpath.cli.files import load_project
from stitchpath.cli.problems import ShownProblemsError
from tests.support.svg_files import svg

LINE = svg('<path d="M0,0H96"/>')
PROJECT = """
quilt = { width = 900, length = 1200, quilting = [{ layout = "motif", svg = "NAME" }] }
"""


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """Make a folder with a project's drawings, and one file above it."""
    folder = tmp_path / "home"
    (folder / "below").mkdir(parents=True)
    (tmp_path / "above.svg").write_bytes(LINE)
    (folder / "line.svg").write_bytes(LINE)
    (folder / "below" / "LINE.SVG").write_bytes(LINE)
    (folder / "notes.txt").write_bytes(LINE)
    (folder / "folder.svg").mkdir()
    (folder / "out.svg").symlink_to(tmp_path / "above.svg")
    (folder / "inside.svg").symlink_to(folder / "line.svg")
    (folder / "loop.svg").symlink_to(folder / "loop.svg")
    os.mkfifo(folder / "pipe.svg")
    return folder


@pytest.mark.parametrize(
    "name", ["line.svg", "below/LINE.SVG", "./line.svg", "below//LINE.SVG", "inside.svg"]
)
def test_file_in_the_folder_or_below_is_read(home: Path, name: str) -> None:
    drawing = drawing_loader(home)(name)
    assert drawing.source == name
    assert len(drawing.strokes) == 1


@pytest.mark.parametrize(
    ("name", "why"),
    [
        ("../above.svg", "without `/` or `..`"),
        ("below/../../above.svg", "without `/` or `..`"),
        ("below/../line.svg", "without `/` or `..`"),
        ("/etc/hostname.svg", "without `/` or `..`"),
        ("//server/share/line.svg", "without `/` or `..`"),
        ("C:\\line.svg", "without `/` or `..`"),
        ("C:line.svg", "without `/` or `..`"),
        ("..\\above.svg", "without `/` or `..`"),
        ("notes.txt", "ends in `.svg`"),
        ("", "ends in `.svg`"),
        (".", "ends in `.svg`"),
        ("out.svg", "leads out of the project's folder"),
        ("loop.svg", "cannot be read"),
        ("folder.svg", "no file"),
        ("pipe.svg", "no file"),
        ("none.svg", "no such file"),
        ("none/line.svg", "no such file"),
        ("line.svg/line.svg", "no such file"),
        ("a\0.svg", "null"),
        ("x" * 300 + ".svg", "cannot be read"),
    ],
)
def test_name_of_anything_else_is_refused(home: Path, name: str, why: str) -> None:
    with pytest.raises(ValueError, match=why):
        drawing_loader(home)(name)


def test_large_file_is_refused_without_reading_it_all(home: Path) -> None:
    with (home / "large.svg").open("wb") as file:
        file.truncate(10**12)  # sparse: a terabyte that takes no room
    with pytest.raises(ValueError, match="more than 1,000,000 bytes"):
        drawing_loader(home)("large.svg")


def test_project_finds_its_drawing_from_any_folder(home: Path) -> None:
    path = home / "throw.toml"
    path.write_text(PROJECT.replace("NAME", "below/LINE.SVG"), encoding="utf-8")
    (spec,) = load_project(path).quilt.quilting
    assert spec.svg is not None
    assert spec.svg.strokes[0][-1, 0] == pytest.approx(25.4)


def test_problem_with_a_drawing_is_shown_with_its_place(home: Path) -> None:
    path = home / "throw.toml"
    path.write_text(PROJECT.replace("NAME", "../above.svg"), encoding="utf-8")
    with pytest.raises(ShownProblemsError) as caught:
        load_project(path)
    (problem,) = caught.value.problems
    assert problem.code == "not-a-drawing"
    assert problem.span is not None
    assert (problem.span.line, problem.span.width) == (2, len('"../above.svg"'))
    assert "without `/` or `..`" in str(caught.value)
