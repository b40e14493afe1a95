from dataclasses import fields
from typing import Any

import pytest

from stitchpath.catalog.bobbins import BOBBINS
from stitchpath.catalog.formats import FORMATS
from stitchpath.catalog.line_formats import LINE_FORMATS
from stitchpath.layouts import layout_names
from stitchpath.model.project import Project
from stitchpath.model.quilt import Quilt
from stitchpath.project.fault import Path, clipped, key_path
from stitchpath.project.keys import Key, all_keys, find_key, project_key
from stitchpath.project.nearest import nearest
from stitchpath.project.wording import default_text, limits_text, table_header
from stitchpath.units import Unit


def key_at(*path: str | int) -> Key:
    key = find_key(path)
    assert key is not None
    return key


def test_keys_are_the_models_fields() -> None:
    assert [key.name for key in project_key().keys] == [f.name for f in fields(Project)]
    assert [key.name for key in key_at("quilt").keys] == [f.name for f in fields(Quilt)]
    assert "raise" in [key.name for key in key_at("pocket").keys]


@pytest.mark.parametrize(
    "path",
    [("colour",), ("quilt", "width", "x"), ("quilt", 0), ("machine", "field", 0, 0, "x")],
)
def test_key_that_is_not_there_is_not_found(path: Path) -> None:
    assert find_key(path) is None


def test_names_are_those_of_this_installation() -> None:
    formats = key_at("machine", "formats").item
    assert formats is not None
    assert formats.choices == (*FORMATS, *LINE_FORMATS)
    assert key_at("machine", "bobbin").choices == tuple(BOBBINS)
    assert key_at("quilt", "quilting", 0, "layout").choices == layout_names()


def test_every_key_says_what_it_is() -> None:
    for path, key in all_keys():
        assert key.description, path
        assert limits_text(key, "mm"), path


def test_every_default_is_within_its_limits() -> None:
    for path, key in all_keys():
        if key.keys or key.required or key.default is None:
            continue
        values: Any = key.default if key.kind == "list" else [key.default]
        one = key.item if key.kind == "list" else key
        assert one is not None
        for value in values:
            assert not one.choices or value in one.choices, path
            if isinstance(value, int | float):
                assert one.low <= value <= one.high, path


@pytest.mark.parametrize(
    ("path", "unit", "text"),
    [
        (("quilt", "width"), "mm", "between 20 mm and 10000 mm"),
        (("quilt", "width"), "cm", "between 2 cm and 1000 cm"),
        (
            ("quilt", "width"),
            "in",
            "between 20 mm (about 13/16 in) and 10000 mm (about 393 11/16 in)",
        ),
        (("batting", "shrinkage"), "in", "between 0 % and 30 %"),
        (("pocket", "seam", "passes"), "mm", "between 1 and 5"),
        (("quilt", "edge"), "mm", "`turned` or `bound`"),
        (("machine", "field"), "mm", "a list of 2 lengths"),
        (("machine", "formats"), "mm", "a list of 1 to 20 names"),
        (("quilt", "quilting"), "mm", "a list of tables"),
        (("pocket",), "mm", "a table"),
        (("hoopings", "turn"), "mm", "true or false, without quotes"),
        (("name",), "mm", "text of 1 to 120 characters"),
    ],
)
def test_limits_are_told_in_the_projects_unit(path: Path, unit: Unit, text: str) -> None:
    assert limits_text(key_at(*path), unit) == text


def test_defaults_can_be_written_in_a_file() -> None:
    assert default_text(key_at("batting", "shrinkage")) == '"3 %"'
    assert default_text(key_at("machine", "cuts_thread")) == "true"
    assert default_text(key_at("machine", "formats")) == '["dst"]'


def test_paths_and_headers_are_told_as_in_the_file() -> None:
    assert key_path(("a", 0, "b c", 1)) == 'a[0]."b c"[1]'
    assert table_header(("quilt", "quilting", 0), "tables") == "[[quilt.quilting]]"
    assert len(key_path(("a" * 500, "b"))) == 100


def test_long_text_is_clipped() -> None:
    assert clipped("a" * 50) == "a" * 39 + "…"
    assert clipped("[\n1]") == "[ …"


@pytest.mark.parametrize(
    ("word", "found"),
    [("lenght", "length"), ("Wid-th", "width"), ("zzz", None), ("w" * 41, None), ("", None)],
)
def test_nearest_word(word: str, found: str | None) -> None:
    assert nearest(word, ["length", "width", "edge_stitch"]) == found
