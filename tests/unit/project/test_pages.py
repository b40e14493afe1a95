"""The pages on project files, held against the program."""

import re
from pathlib import Path as FilePath
from typing import Final, get_args

import pytest

from stitchpath.errors import ProjectError
from stitchpath.project import decode_project, read_project
from stitchpath.project.fault import Code, Path
from stitchpath.project.keys import Key, all_keys, find_key, project_key
from stitchpath.project.wording import any_of, default_text, limits_text

DOCS: Final = FilePath(__file__).parents[3] / "docs"
ERRORS: Final = (DOCS / "errors.md").read_text(encoding="utf-8")
REFERENCE: Final = (DOCS / "project-file.md").read_text(encoding="utf-8")
SECTIONS: Final = dict(re.findall(r"(?ms)^## `([a-z0-9-]+)`\n(.*?)(?=^## |\Z)", ERRORS))


def examples(section: str) -> list[bytes]:
    """Return the bytes of a section's files, made as stands after `toml`."""
    files: list[bytes] = []
    for how, text in re.findall(r"(?ms)^```toml ?(.*?)\n(.*?)^```$", section):
        times = int(how[1:]) if how.startswith("x") else 1
        files.append((text * times).encode("latin-1" if how == "latin-1" else "utf-8"))
    return files


def test_every_code_has_a_section_and_every_section_a_code() -> None:
    assert sorted(SECTIONS) == sorted(get_args(Code))


@pytest.mark.parametrize("code", SECTIONS)
def test_failing_file_has_its_problem_and_fixed_file_has_none(code: str) -> None:
    failing, fixed = examples(SECTIONS[code])
    with pytest.raises(ProjectError) as caught:
        read_project(decode_project(failing))
    codes = {problem.code for problem in caught.value.problems}
    assert code in codes
    assert codes == {code} or code == "more-problems"
    assert read_project(decode_project(fixed)).quilt.width > 0


def tables_of(heading: str) -> list[Path]:
    """Return the tables a heading of the reference page is about."""
    if heading == "At the top of the file":
        return [()]
    thread = ("thread",) if heading.startswith("`thread`") else ()
    names = re.findall(r"`\[*([a-z.]+)\]*`", heading.removeprefix("`thread`"))
    return [(*_with_items(tuple(name.split("."))), *thread) for name in names]


def _with_items(path: Path) -> Path:
    return tuple(
        part for name in path for part in ((name, 0) if name == "quilting" else (name,))
    )


def row_of(key: Key) -> str:
    default = "needed" if key.required else "" if key.keys else f"`{default_text(key)}`"
    limits = limits_text(key, "mm")
    if key.kind == "list" and key.item is not None:
        item = key.item
        limits += (
            f": {any_of(item.choices)}" if item.choices else f", each {limits_text(item, 'mm')}"
        )
    return f"| `{key.name}` | {key.description} | {default} | {limits} |"


def test_reference_page_has_every_key_as_the_model_has_it() -> None:
    told: set[Path] = set()
    for heading, body in re.findall(r"(?ms)^## (.*?)\n(.*?)(?=^## |\Z)", REFERENCE):
        rows = [line for line in body.splitlines() if line.startswith("| `")]
        if not rows:
            continue
        for path in tables_of(heading):
            table = find_key(path) if path else project_key()
            assert table is not None, heading
            keys = [key for key in table.keys if not key.keys or key.name == "thread"]
            assert rows == [row_of(key) for key in keys], heading
            told |= {(*path, key.name) for key in keys}
    assert told == {path for path, key in all_keys() if not key.keys or key.name == "thread"}
