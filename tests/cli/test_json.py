"""With --json standard output is JSON and nothing else, whatever happens."""

import json
from typing import Any

import pytest

from tests.support.command_line import Shell

_FIGURES = {
    "hoopings", "stitches", "runs", "thread_cuts", "snips", "jumps", "pauses", "seconds",
    "top_thread_mm", "bobbin_thread_mm", "bobbins",
}  # fmt: skip


def _json(shell: Shell, line: str, code: int = 0) -> Any:  # noqa: ANN401 - whatever JSON holds
    ran = shell.run(f"{line} --json")
    assert ran.code == code, ran.err
    return json.loads(ran.out)


def test_counts_of_projects_and_stitch_files_share_keys(with_files: Shell) -> None:
    of_file, of_project = _json(with_files, "stitchpath count upper.DST rug.toml")
    assert of_file.keys() == of_project.keys() == {"file", "name", "stages", "totals"}
    assert of_file["totals"].keys() == of_project["totals"].keys() == _FIGURES
    assert [stage.keys() for stage in of_project["stages"]] == [_FIGURES | {"name", "route"}]


def test_count_and_make_say_of_each_stages_route_what_plan_json_says(shell: Shell) -> None:
    made = _json(shell, "stitchpath make rug.toml --out rug")
    (counted,) = _json(shell, "stitchpath count rug.toml")
    plan = json.loads((shell.folder / "rug" / "plan.json").read_text(encoding="utf-8"))
    routes = [stage["route"] for stage in plan["stages"]]
    assert all("least_runs" in route for route in routes)
    for said in (made, counted):
        assert [stage["route"] for stage in said["stages"]] == routes


def test_stitch_files_of_a_project_come_to_what_the_project_comes_to(with_files: Shell) -> None:
    line = "stitchpath count rug.toml rug/seam/01.dst rug/seam/02.dst --speed 600"
    project, *files = _json(with_files, f"{line} --thickness '4 mm' --bobbin L")
    for name in ("stitches", "pauses", "thread_cuts", "seconds"):
        assert project["totals"][name] == pytest.approx(
            sum(file["totals"][name] for file in files)
        )
    thread = sum(file["totals"]["top_thread_mm"] for file in files)
    assert project["totals"]["top_thread_mm"] == pytest.approx(thread, rel=0.01)


def test_check_says_the_findings_of_plan_json(with_files: Shell) -> None:
    said = _json(with_files, "stitchpath check rug.toml")
    plan = json.loads((with_files.folder / "rug" / "plan.json").read_text(encoding="utf-8"))
    assert said == {"findings": plan["findings"], "problems": []}
    assert said["findings"]


def test_make_says_what_it_made(shell: Shell) -> None:
    said = _json(shell, "stitchpath make rug.toml --out rug")
    made = {
        path.relative_to(shell.folder / "rug").as_posix()
        for path in (shell.folder / "rug").rglob("*")
        if path.is_file()
    }
    assert set(said["files"]) == made
    assert said["out"] == "rug"
    assert said["totals"].keys() == _FIGURES


@pytest.mark.parametrize("what", ["layouts", "fields", "battings", "formats", "bobbins"])
def test_lists_are_arrays_of_objects_with_a_name(what: str, shell: Shell) -> None:
    said = _json(shell, f"stitchpath list {what}")
    assert all(isinstance(choice["name"], str) for choice in said)
    assert len({choice["name"] for choice in said}) == len(said) > 1


def test_schema_is_json(shell: Shell) -> None:
    assert json.loads(shell.run("stitchpath schema").out)["type"] == "object"


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("check wrong.toml", 1),
        ("check gone.toml", 1),
        ("make wrong.toml --out out", 1),
        ("make rug.toml --out notes.txt", 1),
        ("count wrong.toml", 1),
        ("count notes.txt", 2),
        ("corner --out corner.png", 2),
    ],
)
def test_what_ends_a_command_is_said_as_problems(line: str, code: int, shell: Shell) -> None:
    said = _json(shell, f"stitchpath {line}", code)
    assert said["findings"] == []
    assert said["problems"]
    keys = {"code", "text", "key", "line", "column", "help"}
    assert all(problem.keys() == keys for problem in said["problems"])
    assert all(problem["text"] for problem in said["problems"])


@pytest.mark.parametrize(
    "line",
    [
        "check misfit.toml",
        "make misfit.toml --out out",
        "corner --out a.dst --side 50 --field 20x20",
    ],
)
def test_error_findings_are_said_and_end_in_1(line: str, shell: Shell) -> None:
    said = _json(shell, f"stitchpath {line}", 1)
    assert "error" in [finding["level"] for finding in said["findings"]]
    assert said["problems"] == []
