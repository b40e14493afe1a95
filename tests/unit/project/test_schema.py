import tomllib
from functools import cache
from pathlib import Path as FilePath
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from stitchpath.project import project_schema, starter_project
from tests.unit.project.test_read import FULL

BAD = FilePath(__file__).parents[2] / "golden" / "problems"


@cache
def validator() -> Draft202012Validator:
    return Draft202012Validator(project_schema())


def allows(text: str) -> bool:
    return validator().is_valid(tomllib.loads(text))


def test_schema_is_one_of_its_dialect() -> None:
    """Checked by jsonschema against the published meta-schema of draft 2020-12."""
    Draft202012Validator.check_schema(project_schema())
    assert project_schema()["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    assert "$id" not in project_schema()


def test_schema_allows_good_projects() -> None:
    assert allows(FULL)
    for units in ("mm", "cm", "in"):
        assert allows(starter_project(units))


@pytest.mark.parametrize(
    "name",
    [
        "unknown-keys",
        "choices",
        "out-of-range-numbers",
        "lengths",
        "wrong-types",
        "tables-for-lists",
        "counts",
        "colours-and-names",
        "empty",
    ],
)
def test_schema_refuses_bad_projects(name: str) -> None:
    assert not allows((BAD / f"{name}.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize(
    ("line", "good"),
    [
        ("width = 40", True),
        ("width = 10001", False),
        ("width = -1", False),
        ("width = '3 furlongs'", False),
        ("width = '1 1/2 In'", True),
        ("width = true", False),
        ("edge = 'bownd'", False),
        ("edges = 'bound'", False),
    ],
)
def test_single_faults_are_seen(line: str, good: bool) -> None:
    size = "width = 40\nlength = 50\n"
    assert (
        allows(
            f"[quilt]\n{size.replace('width = 40', line) if 'width' in line else size + line}"
        )
        == good
    )


@pytest.mark.parametrize(
    ("colour", "good"),
    [("teal", True), ("Teal", True), ("#abc", True), ("tomatoe", False), ("#12345", False)],
)
def test_colours_are_names_or_hex(colour: str, good: bool) -> None:
    size = "[quilt]\nwidth = 40\nlength = 50\n"
    assert allows(f"{size}[pocket.seam.thread]\ntop = '{colour}'") == good


def test_every_property_has_a_title_a_description_and_its_default() -> None:
    schema = project_schema()
    tables: list[dict[str, Any]] = [schema, *schema["$defs"].values()]
    described = [told for table in tables for told in table.get("properties", {}).values()]
    assert len(described) > 40
    for told in described:
        assert told["title"]
        assert told["description"]
    machine = schema["$defs"]["Machine"]["properties"]
    assert machine["field"]["default"] == ["200 mm", "300 mm"]
    assert machine["longest_stitch"]["default"] == "7 mm"
    assert machine["formats"]["items"]["enum"][0] == "dst"
    assert schema["$defs"]["Batting"]["properties"]["shrinkage"]["default"] == "3 %"
    assert "default" not in schema["$defs"]["Quilt"]["properties"]["width"]


def test_defaults_are_allowed_by_their_own_schema() -> None:
    schema = project_schema()
    for table in (schema, *schema["$defs"].values()):
        for told in table.get("properties", {}).values():
            if "default" in told:
                form = told | {"$defs": schema["$defs"]}
                Draft202012Validator(form).validate(told["default"])
